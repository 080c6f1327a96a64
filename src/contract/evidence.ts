import { z } from 'zod'

/** Ends of a 95 % interval, lower one first. */
export const Interval = z.tuple([z.number(), z.number()])

/** Query parameters that choose the evidence. */
export const evidenceQuery = {
  evidence: z
    .enum(['all', 'class'])
    .default('all')
    .describe('class: only runs flown in the mass class asked for; all: borrowed from every class'),
  excludeInterested: z
    .enum(['true', 'false'])
    .default('false')
    .transform((text) => text === 'true')
    .describe('true: without submissions by people who sell, make or were given what they tested'),
}

export const Refused = z
  .object({
    reasonCode: z.enum([
      'noEvidence',
      'oneSession',
      'notConnected',
      'doesNotClimb',
      'outsideModel',
      'notEstimable',
    ]),
    reason: z.string(),
  })
  .meta({ id: 'Refused' })

export const EvidenceCount = z
  .object({
    sessions: z.int(),
    pilots: z.int(),
    runs: z.int(),
    independentSessions: z
      .int()
      .describe('Sessions in which it was flown together with another setup'),
    interestedSessions: z
      .int()
      .describe('Sessions submitted by somebody who sells, makes or was given what they tested'),
  })
  .meta({ id: 'EvidenceCount' })

export const Safety = z
  .object({
    state: z.enum(['none', 'advisory', 'doNotFly']),
    advisories: z.array(z.string()).describe('The reports behind the state, not lifted'),
  })
  .meta({ id: 'SafetyState' })

export const OtherFits = z
  .enum(['made', 'pending'])
  .describe(
    'Whether the other fits of the same evidence are made: without people with an interest, and with misfits counting less. They follow a fit within moments; until then its answers say pending, carry another ETag, and lack what follows from them. Once made, an answer with that fitId stays as it is. A fit that a newer one replaced at once may stay pending',
  )
  .meta({ id: 'OtherFits' })

export type OtherFits = z.infer<typeof OtherFits>
