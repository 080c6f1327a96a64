import type { Schemas } from '../../api/client.ts'

type Refused = Schemas['Refused']

/** What would lead to a figure, in words of the field. */
const HELP: Readonly<Record<Refused['reasonCode'], string>> = {
  noEvidence: 'One session with it and a setup from this list makes a start.',
  oneSession: 'One more session, best by another pilot, would give a figure.',
  notConnected:
    'Fly both in one session, or each in a session with the same third setup: days and pilots differ too much to compare across them.',
  doesNotClimb: 'Ask for less mass, a lower field or colder air.',
  outsideModel: 'Ask for more mass or a higher field.',
  notEstimable: 'Sessions in which each setup is flown more than once would show it.',
}

/** Why there is no figure, and what would lead to one. */
export function RefusalWords({ refused }: { readonly refused: Refused }) {
  return (
    <span class="reason">
      {refused.reason} {HELP[refused.reasonCode]}
    </span>
  )
}

/** The same for a pair, below its verdict. */
export function RefusedPair({ pair }: { readonly pair: Schemas['ComparedPair'] }) {
  if (pair.reasonCode === undefined) return null
  return (
    <p class="notice">
      <strong>No figure rather than a guess.</strong> {HELP[pair.reasonCode]}
    </p>
  )
}
