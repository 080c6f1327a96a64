import { NoNetwork, Refusal } from '../api/client.ts'
import type { Asked } from '../api/use-answer.ts'
import { isNoRoom, NO_ROOM } from '../store/database.ts'

/** What there is to say about an answer that is not there, or not from now. Nothing when all is well. */
export function AnswerState({ asked }: { readonly asked: Asked<unknown> }) {
  const { got, error, isLoading, retry } = asked
  if (error !== null) return <Failure error={error} retry={retry} />
  if (got?.keptSince) {
    return (
      <p class="notice" role="status">
        You are offline. This is what was known on {got.keptSince.toLocaleString('en-GB')}.
      </p>
    )
  }
  return isLoading ? <Loading /> : null
}

/** A hairline that travels along the scale; still for who asked for less motion. */
export function Loading({ what = 'Loading' }: { readonly what?: string }) {
  return (
    <p class="loading" role="status">
      {what}
      <span class="visually-hidden">, please wait</span>
    </p>
  )
}

/** Long work, as far as it is. */
export function Progress(props: { readonly what: string; readonly of: readonly [number, number] }) {
  const [done, total] = props.of
  return (
    <p class="progress">
      <progress value={done} max={total} aria-label={props.what} />
      <span>
        {props.what}: {done} of {total}
      </span>
    </p>
  )
}

export function Failure({ error, retry }: { readonly error: Error; readonly retry?: () => void }) {
  const isMissing = error instanceof Refusal && error.problem.status === 404
  return (
    <div class="notice notice-fault" role="alert">
      <p>{sentence(error)}</p>
      {error instanceof Refusal && error.problem.errors && error.problem.errors.length > 0 && (
        <ul>
          {error.problem.errors.map(({ pointer, detail }) => (
            <li key={pointer + detail}>{detail}</li>
          ))}
        </ul>
      )}
      {isMissing && (
        <p>
          <a href="/setups">Find a setup</a>, or <a href="/">go to the start</a>.
        </p>
      )}
      {retry && !isMissing && (
        <button type="button" onClick={retry}>
          Try again
        </button>
      )}
    </div>
  )
}

function sentence(error: Error): string {
  if (error instanceof NoNetwork) {
    return 'There is no connection to the service, and this was not looked at before on this device.'
  }
  if (error instanceof Refusal) return error.message
  if (isNoRoom(error)) return `${NO_ROOM} Free some space, then try again.`
  return 'Something went wrong in this page. Reloading it may help.'
}
