import { changeOver, useNewVersion } from '../store/new-version.ts'

/** Says that a newer version of the pages is there, and leaves the moment to the reader. */
export function NewVersionNotice() {
  const version = useNewVersion()
  return (
    <div class="new-version no-print" role="status">
      {version !== 'none' && (
        <div class="notice">
          <p>
            <strong>A newer version of these pages is there.</strong> Your draft and what waits to
            be sent stay as they are.
          </p>
          <button type="button" disabled={version === 'asked'} onClick={changeOver}>
            {version === 'asked' ? 'Changing over …' : 'Change over now'}
          </button>
        </div>
      )}
    </div>
  )
}
