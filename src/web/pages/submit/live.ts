import { normaliseSubmission } from '../../../core/normalise/submission.ts'
import type { FlownWing, RunOutcome } from '../../../core/normalise/types.ts'
import { bodyOf } from './body.ts'
import type { Form } from './form.ts'

/** What the core makes of the form as it stands. */
export interface Live {
  /** By the key of the run; null where something is still missing or refused. */
  readonly outcomes: ReadonlyMap<string, RunOutcome>
  /** By pointer into the body: it cannot be sent like this. */
  readonly faults: ReadonlyMap<string, readonly string[]>
  /** By pointer: unusual or assumed. */
  readonly doubts: ReadonlyMap<string, readonly string[]>
  readonly needed: readonly string[]
}

const NOTHING: Live = { outcomes: new Map(), faults: new Map(), doubts: new Map(), needed: [] }

/**
 * Works out every run that is complete, with the same code as the service and without asking it.
 */
export function workOut(form: Form): Live {
  const { body, needed } = bodyOf(form)
  const isSessionLacking = needed.some((p) => /^\/(?:site\/(?!name)|conditions|pilot|wing)/.test(p))
  if (isSessionLacking) return { ...NOTHING, needed }
  const isWhole = (pointer: string) => !needed.some((p) => `${p}/`.startsWith(`${pointer}/`))
  const places: { readonly entry: number; readonly runs: readonly number[] }[] = []
  const entries = form.entries.flatMap((entry, index) => {
    const written = body.entries[index]!
    const pointer = `/entries/${index}`
    const runs = entry.runs.flatMap((_run, run) => (isWhole(`${pointer}/runs/${run}`) ? [run] : []))
    if (entry.setup === null || entry.allUpMassKg.stored === null || runs.length === 0) return []
    places.push({ entry: index, runs })
    return [{ entry: written, equipment: entry.setup, runs: runs.map((run) => written.runs[run]!) }]
  })
  const stated = 'uncertainty' in body.wing ? body.wing.uncertainty : undefined
  const wing = wingOf(form, stated)
  const outcome = normaliseSubmission({ ...body, wing }, entries)
  const inForm = (pointer: string) =>
    pointer.replace(/^\/entries\/(\d+)(?:\/runs\/(\d+))?/, (_match, entry, run) => {
      const place = places[Number(entry)]!
      const head = `/entries/${place.entry}`
      return run === undefined ? head : `${head}/runs/${place.runs[Number(run)]}`
    })
  const outcomes = new Map<string, RunOutcome>()
  outcome.outcomes?.forEach((runs, entry) => {
    const place = places[entry]!
    runs.forEach((one, run) => {
      outcomes.set(form.entries[place.entry]!.runs[place.runs[run]!]!.key, one)
    })
  })
  const all = [...outcomes.values()].flatMap(({ warnings }) => warnings)
  return {
    outcomes,
    faults: byPointer(outcome.refusals, inForm),
    doubts: byPointer([...outcome.warnings, ...all], inForm),
    needed,
  }
}

function byPointer(
  findings: readonly { readonly pointer: string; readonly detail: string }[],
  inForm: (pointer: string) => string,
): ReadonlyMap<string, readonly string[]> {
  const map = new Map<string, string[]>()
  for (const { pointer, detail } of findings) {
    const place = inForm(pointer)
    const list = map.get(place) ?? []
    if (!list.includes(detail)) list.push(detail)
    map.set(place, list)
  }
  return map
}

/** The figures of the wing, whether it is sent by its id or described. */
function wingOf({ wing }: Form, uncertainty: FlownWing['uncertainty']): FlownWing {
  const { flatAreaM2, glideRatio, trimSpeedMps, trimAtAllUpMassKg } = wing
  return {
    flatAreaM2: flatAreaM2.stored ?? Number.NaN,
    glideRatio: glideRatio.stored ?? undefined,
    glideSource: glideRatio.stored === null ? undefined : wing.glideSource,
    trimSpeedMps: trimSpeedMps.stored ?? undefined,
    trimAtAllUpMassKg: trimAtAllUpMassKg.stored ?? undefined,
    ...(uncertainty === undefined ? {} : { uncertainty }),
  }
}
