import type { PoolClient } from 'pg'

import type { Warning } from '../../../core/normalise/types.ts'
import type { NewSubmission } from '../schema.ts'
import { type AlikeEntry, findAlike } from './find.ts'

/** Doubts about a body that is posted: what stands already would count twice. */
export async function countedBefore(
  client: PoolClient,
  accountId: string,
  body: NewSubmission,
): Promise<Warning[]> {
  const [found = []] = await findAlike(client, [body])
  return found.flatMap((alike) => {
    const detail = detailOf(alike, accountId)
    const pointer = `/entries/${alike.entryIndex}`
    return detail === null ? [] : [{ pointer, code: 'perhapsCountedTwice', detail }]
  })
}

/** What is said of it; null where two flights are likelier. */
function detailOf({ earlier, isSame }: AlikeEntry, accountId: string): string | null {
  if ('bodyIndex' in earlier) return null
  const { submissionId, isImported } = earlier
  if (isImported) {
    return `A notebook brought in the same readings of that day and setup before, as submission ${submissionId}. If it is the same flight, withdraw one of the two: it counts twice.`
  }
  if (!isSame || earlier.accountId !== accountId) return null
  return `You posted the same readings of that day, setup, mass and air before, as submission ${submissionId}. If it is the same flight, withdraw one of the two: it counts twice. With the header Idempotency-Key a request that is sent again is not taken twice.`
}
