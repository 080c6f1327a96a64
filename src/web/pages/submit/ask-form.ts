import { get, type Schemas } from '../../api/client.ts'
import type { Form, KnownSetup } from './form.ts'
import { formOf } from './form-of.ts'
import { knownSetup } from './known-setup.ts'

/** A stored submission as a form again, with what the catalogue says of the things it names. */
export async function askAndForm(test: Schemas['FullSubmission']): Promise<Form> {
  const setups = new Map<string, KnownSetup>()
  for (const { setupId } of test.entries) {
    const { body } = await get('/v1/setups/{id}', { path: { id: setupId } })
    setups.set(setupId, knownSetup(body))
  }
  const { id } = test.wing
  if (id === undefined) return formOf(test, { setups, wing: undefined })
  const { body } = await get('/v1/components/{id}', { path: { id } })
  return formOf(test, { setups, wing: body.kind === 'wing' ? body : undefined })
}
