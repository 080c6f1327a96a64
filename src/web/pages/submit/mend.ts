import { type OutboxItem, outboxChanged, without } from '../../store/outbox.ts'
import { renamed, takeAsDraft } from './draft.ts'

/** Takes a refused test back into the form, with what the service said of it beside its fields. */
export async function mend({ key, form, problem }: OutboxItem): Promise<void> {
  const { errors = [], detail, title = '' } = problem ?? {}
  const refused = errors.length > 0 ? errors : [{ pointer: '', detail: detail ?? title }]
  await takeAsDraft(renamed(form, refused), [without(key)])
  await outboxChanged()
}
