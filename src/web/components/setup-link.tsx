import { useAnswer } from '../api/use-answer.ts'

/** Named as soon as the name has come. */
export function SetupLink({ id, fallback }: { readonly id: string; readonly fallback: string }) {
  const asked = useAnswer('/v1/setups/{id}', { path: { id } })
  return <a href={`/setups/${id}`}>{asked.got?.body.name ?? fallback}</a>
}
