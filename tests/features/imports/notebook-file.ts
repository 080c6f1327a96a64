import type supertest from 'supertest'

/** A row of a notebook by column; what is left out is empty. */
export type Cells = Readonly<Record<string, string | number | boolean>>

/** Place, air and wing of the worked example of METHOD.md, section d, and one of its climbs. */
export const EVENING: Cells = {
  session: 'Evening 1',
  flown_on: '2026-05-17',
  site_name: 'Larkfield',
  site_elevation_m: 600,
  conditions_temperature_c: 25,
  conditions_qnh_hpa: 1018,
  conditions_relative_humidity_pct: 50,
  conditions_air_motion: 'light',
  pilot_mass_kg: 95,
  wing_flat_area_m2: 26,
  wing_glide_ratio: 6.8,
  wing_glide_source: 'measured',
  wing_trim_speed_mps: 10.8,
  wing_trim_at_all_up_mass_kg: 124.8,
  interest: 'none',
  all_up_mass_kg: 135,
  mass_source: 'weighed',
}

export const CLIMB: Cells = {
  kind: 'climb',
  height_gain_m: 100,
  duration_s: 55,
  height_source: 'barometric',
  start_height_above_site_m: 50,
}

export const STATIC_PULL: Cells = {
  kind: 'staticPull',
  thrust_n: 600,
  rpm: 8300,
  headwind_mps: 0.5,
}

export const TIP_CLEARANCE: Cells = {
  kind: 'tipClearance',
  static_clearance_mm: 28,
  loaded_clearance_mm: 20,
  contact_seen: false,
}

/** Rows as CSV, with every column that one of them has. */
export function csvOf(rows: readonly Cells[], delimiter = ','): string {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))]
  const cell = (row: Cells, name: string) => {
    const text = String(row[name] ?? '')
    const written =
      delimiter === ';' && typeof row[name] === 'number' ? text.replace('.', ',') : text
    return /[",;\n]/.test(written) ? `"${written.replaceAll('"', '""')}"` : written
  }
  const lines = rows.map((row) => columns.map((name) => cell(row, name)).join(delimiter))
  return `${[columns.join(delimiter), ...lines].join('\r\n')}\r\n`
}

interface Sending {
  readonly token: string
  readonly key?: string
  readonly type?: string
}

/** Posts a body as one file. */
export function sendCsv(
  { request }: { readonly request: ReturnType<typeof supertest> },
  csv: string | Buffer,
  { token, key, type = 'text/csv' }: Sending,
) {
  const asked = request.post('/v1/imports').set('authorization', `Bearer ${token}`).type(type)
  if (key !== undefined) asked.set('idempotency-key', key)
  return asked.send(csv)
}

/** Faults as "row column: detail", for comparison at a glance. */
export function faultsOf(body: {
  errors: { row?: number; column?: string; detail: string }[]
}): string[] {
  return body.errors.map(({ row, column, detail }) => `${row ?? '-'} ${column ?? '-'}: ${detail}`)
}
