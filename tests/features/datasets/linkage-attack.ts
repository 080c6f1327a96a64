/** What an attacker knows of a flight: they saw it, read about it, or know the pilot. */
export interface KnownFlight {
  readonly pilot: string
  readonly massKg: number
  readonly elevationM: number
  readonly wingAreaM2: number
  /** YYYY-MM. */
  readonly month: string
  readonly airMotion: string
  readonly interest: string
}

/** What a row of a release shows; empty is anything. */
export type ShownRow = Readonly<Record<string, string | undefined>>

/** The keys that stay possible for each pilot, by the attacker's knowledge of all that pilot's flights. */
export function findPilots(
  rows: readonly ShownRow[],
  known: readonly KnownFlight[],
): Map<string, Set<string>> {
  const pilots = new Set(known.map(({ pilot }) => pilot))
  return new Map(
    [...pilots].map((pilot) => [
      pilot,
      leftOver(
        rows,
        known.filter((flight) => flight.pilot === pilot),
      ),
    ]),
  )
}

/** Keys with a row that fits each of the flights. */
export function leftOver(rows: readonly ShownRow[], flights: readonly KnownFlight[]): Set<string> {
  const fitting = flights.map(
    (flight) => new Set(rows.filter((row) => fits(row, flight)).map((row) => row.pilot_key!)),
  )
  return new Set([...fitting[0]!].filter((key) => fitting.every((keys) => keys.has(key))))
}

/** A row is compatible with a flight where nothing it shows speaks against it. */
function fits(row: ShownRow, flight: KnownFlight): boolean {
  return (
    inRange(row.all_up_mass_class, flight.massKg) &&
    inRange(row.elevation_class, flight.elevationM) &&
    inRange(row.wing_area_class, flight.wingAreaM2) &&
    (isEmpty(row.flown_from) || row.flown_from! <= flight.month) &&
    (isEmpty(row.flown_to) || flight.month <= row.flown_to!) &&
    inWords(row.air_motion, flight.airMotion) &&
    isInterest(row.interest, flight.interest)
  )
}

const isEmpty = (cell: string | undefined) => cell === undefined || cell === ''

/** Classes and ranges, read here by their names alone. */
function inRange(cell: string | undefined, value: number): boolean {
  if (isEmpty(cell)) return true
  const text = cell === 'tandem' ? 'over170' : cell!
  const { from = '-Infinity', to = 'Infinity' } =
    /^(?:under(?<to>[\d.]+))$/.exec(text)?.groups ??
    /^(?:over(?<from>[\d.]+))$/.exec(text)?.groups ??
    /^(?<from>[\d.]+)to(?<to>[\d.]+)$/.exec(text)!.groups!
  return value >= Number(from) && value < Number(to)
}

function inWords(cell: string | undefined, word: string): boolean {
  if (isEmpty(cell)) return true
  const order = ['calm', 'light', 'active', 'thermic']
  const [from, to = from] = cell!.split('To').map((part) => order.indexOf(part.toLowerCase()))
  const at = order.indexOf(word)
  return from! <= at && at <= to!
}

function isInterest(cell: string | undefined, interest: string): boolean {
  return isEmpty(cell) || cell === interest || (cell === 'interested' && interest !== 'none')
}
