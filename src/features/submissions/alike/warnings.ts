import type { PoolClient } from 'pg'

import type { Warning } from '../../../core/normalise/types.ts'
import type { NewSubmission } from '../schema.ts'
import { findAlike } from './find.ts'

/** Doubts about a body that is posted: what a notebook brought in before would count twice. */
export async function importedBefore(client: PoolClient, body: NewSubmission): Promise<Warning[]> {
  const [found = []] = await findAlike(client, [body])
  return found.flatMap(({ entryIndex, earlier }) =>
    'isImported' in earlier && earlier.isImported
      ? [
          {
            pointer: `/entries/${entryIndex}`,
            code: 'perhapsCountedTwice',
            detail: `A notebook brought in the same readings of that day and setup before, as submission ${earlier.submissionId}. If it is the same flight, withdraw one of the two: it counts twice.`,
          },
        ]
      : [],
  )
}
