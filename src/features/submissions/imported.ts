import { randomUUID } from 'node:crypto'

import type { PoolClient } from 'pg'

import { findAlike } from './alike/find.ts'
import { type NormalisedSubmission, normalise } from './normalizations/normalise.ts'
import { findGrounded } from './safety/repository.ts'
import { NewSubmission } from './schema.ts'
import { storeNormalised } from './service.ts'

/** What a submission that comes out of a file is checked and stored by: the same as one that is posted. */
export const submissionPort = {
  schema: NewSubmission,
  check: (client: PoolClient, body: NewSubmission) => normalise(client, body),
  warningsOf: ({ warnings, outcomes }: NormalisedSubmission) => [
    ...warnings,
    ...outcomes.flat().flatMap((outcome) => outcome.warnings),
  ],
  async store(
    client: PoolClient,
    submission: {
      readonly accountId: string
      readonly body: NewSubmission
      readonly normalised: NormalisedSubmission
    },
  ): Promise<string> {
    const { accountId, ...checked } = submission
    const { id } = await storeNormalised(client, { id: randomUUID(), accountId }, checked)
    return id
  },
  alike: findAlike,
  grounded: findGrounded,
}
