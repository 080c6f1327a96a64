import type { Live } from './live.ts'

/** Names of what all runs share, for the sentence that says what is still missing. */
const SHARED: Readonly<Record<string, string>> = {
  '/site/elevationM': 'elevation of the field',
  '/conditions/temperatureC': 'air temperature',
  '/conditions/qnhHPa': 'pressure',
  '/conditions/stationPressureHPa': 'pressure',
  '/conditions/relativeHumidityPct': 'humidity',
  '/conditions/windMps': 'wind',
  '/pilot/massKg': 'pilot with clothing',
  '/wing/flatAreaM2': 'flat area of the wing',
  '/wing/glideRatio': 'glide ratio',
  '/wing/trimSpeedMps': 'airspeed at trim',
  '/wing/trimAtAllUpMassKg': 'all-up mass at that speed',
}

/** Why there is no result yet: what is missing, or that something cannot be right. */
export function Lacking({ live, pointer }: { readonly live: Live; readonly pointer: string }) {
  const [entry = ''] = /^\/entries\/\d+/.exec(pointer) ?? []
  const isOwn = live.needed.some((place) => place.startsWith(`${pointer}/`))
  const names = [
    ...(isOwn ? ['the readings of this run'] : []),
    ...(live.needed.includes(`${entry}/setupId`) ? ['the setup'] : []),
    ...(live.needed.includes(`${entry}/allUpMassKg`) ? ['all-up mass'] : []),
    ...new Set(live.needed.flatMap((place) => SHARED[place] ?? [])),
  ]
  if (names.length > 0) {
    return <p class="hint">The result appears here. Still missing: {names.join(', ')}.</p>
  }
  return <p class="hint">No result while a value cannot be right: it is marked.</p>
}
