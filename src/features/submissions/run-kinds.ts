import { z } from 'zod'

import { measured } from './measured.ts'
import { climb } from './runs/climb.ts'
import { energyUse } from './runs/energy-use.ts'
import { fuelBurn } from './runs/fuel-burn.ts'
import { levelSpeed } from './runs/level-speed.ts'
import { sink } from './runs/sink.ts'
import { refuseMisplacedDistance, soundLevel } from './runs/sound-level.ts'
import { staticPull } from './runs/static-pull.ts'
import { tipClearance } from './runs/tip-clearance.ts'

// To add a kind: its fields and measures in a file under runs/, one line in each of the three lists below.

/** Kinds of run taken today. */
export const RUN_KINDS = [
  'climb',
  'fuelBurn',
  'energyUse',
  'staticPull',
  'soundLevel',
  'sink',
  'levelSpeed',
  'tipClearance',
] as const

export const RunKind = z.enum(RUN_KINDS)

/** One measured run of a submission. */
export const NewRun = z.discriminatedUnion(
  'kind',
  [
    measured(climb.shape, climb.measures),
    measured(fuelBurn.shape, fuelBurn.measures),
    measured(energyUse.shape, energyUse.measures),
    measured(staticPull.shape, staticPull.measures),
    measured(soundLevel.shape, soundLevel.measures).superRefine(refuseMisplacedDistance),
    measured(sink.shape, sink.measures),
    measured(levelSpeed.shape, levelSpeed.measures),
    measured(tipClearance.shape, tipClearance.measures),
  ],
  {
    error: (issue) =>
      issue.code === 'invalid_union'
        ? `Kinds of run taken today: ${RUN_KINDS.join(', ')}. Other kinds are not taken yet`
        : undefined,
  },
)

export type NewRun = z.infer<typeof NewRun>

/** The runs as they were given, each with further fields beside its own: for the answers. */
export function reportedRun<S extends z.core.$ZodLooseShape>(result: S) {
  return z.discriminatedUnion('kind', [
    z.object({ ...measured(climb.shape, climb.measures).shape, ...result }),
    z.object({ ...measured(fuelBurn.shape, fuelBurn.measures).shape, ...result }),
    z.object({ ...measured(energyUse.shape, energyUse.measures).shape, ...result }),
    z.object({ ...measured(staticPull.shape, staticPull.measures).shape, ...result }),
    z.object({ ...measured(soundLevel.shape, soundLevel.measures).shape, ...result }),
    z.object({ ...measured(sink.shape, sink.measures).shape, ...result }),
    z.object({ ...measured(levelSpeed.shape, levelSpeed.measures).shape, ...result }),
    z.object({ ...measured(tipClearance.shape, tipClearance.measures).shape, ...result }),
  ])
}
