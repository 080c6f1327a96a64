import { useState } from 'preact/hooks'

import { post, type Schemas } from '../../api/client.ts'
import { RadioRow, TextField } from '../../components/fields.tsx'
import { Failure } from '../../components/notices.tsx'
import { randomKey } from '../../store/random-key.ts'
import { choicesFor, type Decision } from './review-words.ts'

type Review = Schemas['Review']

interface Props {
  readonly review: Review
  readonly onDecided: (review: Review) => void
}

/** A decision with its reason; both stay for good. A later one may say otherwise. */
export function DecisionForm({ review, onDecided }: Props) {
  const [decision, setDecision] = useState<Decision | null>(null)
  const [reason, setReason] = useState('')
  const [key] = useState(randomKey)
  const [state, setState] = useState<'open' | 'sending' | Error>('open')
  const choices = choicesFor(review)
  const chosen = choices.find((choice) => choice.decision === decision)
  const send = () => {
    setState('sending')
    post(
      '/v1/reviews/{id}/decisions',
      { decision: decision!, reason: reason.trim() },
      { path: { id: review.id }, idempotencyKey: key },
    )
      .then(onDecided)
      .catch((error: unknown) => setState(error as Error))
  }
  return (
    <form
      class="decision"
      onSubmit={(event) => {
        event.preventDefault()
        send()
      }}
    >
      <RadioRow
        legend={review.decidedAt === null ? 'Decide' : 'Decide anew'}
        value={decision}
        choices={choices.map((choice) => [choice.decision, choice.label] as const)}
        onChange={setDecision}
      />
      {chosen !== undefined && (
        <>
          <p role="status">{chosen.effect}</p>
          <TextField
            label="Reason"
            hint="It stays for good, with your account. Of “do not fly” and advisories everybody reads it."
            value={reason}
            onChange={setReason}
          />
          {state instanceof Error && <Failure error={state} />}
          <button
            type="submit"
            class="primary"
            disabled={reason.trim() === '' || state === 'sending'}
          >
            {state === 'sending' ? 'Sending' : `Decide: ${chosen.label.toLowerCase()}`}
          </button>
        </>
      )}
    </form>
  )
}
