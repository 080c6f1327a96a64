import { get, type Problem, post, Refusal, type Schemas } from '../../../api/client.ts'
import { keepSetups } from '../../../store/known-setups.ts'
import { PART_KINDS, type PartForm, type PartKind, partBody } from './part-form.ts'

type FieldErrors = NonNullable<Problem['errors']>

/** What stands in the way: something known already, which may be taken, or a refusal. */
export type Hurdle =
  | {
      readonly at: PartKind
      readonly known: Schemas['Component'] | null
      readonly errors: FieldErrors
      readonly error: Error | null
    }
  | { readonly at: 'setup'; readonly known: Schemas['Setup']; readonly error: null }
  | { readonly at: null; readonly error: Error }

/**
 * Adds the parts that are typed, then the setup of all three.
 *
 * @param onPart told of each part as soon as it is in the catalogue, so that it is not added twice
 */
export async function addSetup(
  parts: Readonly<Record<PartKind, PartForm>>,
  onPart: (kind: PartKind, id: string) => void,
): Promise<{ readonly setup: Schemas['Setup'] } | Hurdle> {
  const ids: Partial<Record<PartKind, string>> = {}
  for (const kind of PART_KINDS) {
    try {
      ids[kind] = parts[kind].id ?? (await post('/v1/components', partBody(kind, parts[kind]))).id
      onPart(kind, ids[kind]!)
    } catch (error) {
      return hurdleAt(kind, error as Error)
    }
  }
  const { powerplant, propeller, frame } = ids as Record<PartKind, string>
  const body = { powerplantId: powerplant, propellerId: propeller, frameId: frame }
  try {
    const setup = await post('/v1/setups', body)
    await keepSetups([setup]).catch(() => {}) // chosen again later, also without a network
    return { setup }
  } catch (error) {
    return knownSetupOf(error as Error)
  }
}

async function hurdleAt(at: PartKind, error: Error): Promise<Hurdle> {
  const id = existingIdIn(error)
  if (id !== undefined) {
    const found = await get('/v1/components/{id}', { path: { id } }).catch(() => null)
    if (found !== null) return { at, known: found.body, errors: [], error: null }
  }
  const errors = error instanceof Refusal ? (error.problem.errors ?? []) : []
  return { at, known: null, errors, error: errors.length > 0 ? null : error }
}

async function knownSetupOf(error: Error): Promise<Hurdle> {
  const id = existingIdIn(error)
  if (id !== undefined) {
    const found = await get('/v1/setups/{id}', { path: { id } }).catch(() => null)
    if (found !== null) return { at: 'setup', known: found.body, error: null }
  }
  return { at: null, error }
}

/** The id of what is there already, where that is why it was refused. */
function existingIdIn(error: Error): string | undefined {
  return error instanceof Refusal ? error.problem.existingId : undefined
}
