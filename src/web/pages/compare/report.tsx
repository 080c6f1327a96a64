import { useState } from 'preact/hooks'

import { addressOf, type Question } from './question.ts'

interface Props {
  readonly question: Question
  /** The same question with the fits it was answered from. */
  readonly exactly: Question
}

/** What makes an answer one to hand on: paper, a link to exactly this answer, its origin. */
export function Report({ question, exactly }: Props) {
  const [copied, setCopied] = useState<'no' | 'yes' | 'failed'>('no')
  const exact = new URL(addressOf(exactly), location.href).href
  const copy = () =>
    navigator.clipboard
      .writeText(exact)
      .then(() => setCopied('yes'))
      .catch(() => setCopied('failed'))
  return (
    <section class="report">
      <div class="row no-print">
        <button type="button" onClick={() => print()}>
          Print as one page
        </button>
        <button type="button" onClick={copy}>
          Copy the link
        </button>
        {question.fitId !== null && (
          <a href={addressOf({ ...question, fitId: null, tradeOffFits: null })}>
            Show today’s flights instead
          </a>
        )}
      </div>
      <p role="status" class="no-print">
        {copied === 'yes' &&
          'The link shows exactly this answer, also when more flights have come in.'}
        {copied === 'failed' && 'The browser does not let pages copy. Here it is:'}
      </p>
      <p class="origin">
        {new Date().toLocaleDateString('en-GB', { dateStyle: 'long' })}. This answer again:{' '}
        <a href={exact}>{exact}</a>
      </p>
    </section>
  )
}
