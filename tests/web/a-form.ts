import {
  blankEntry,
  blankForm,
  blankRun,
  type Form,
  type KnownSetup,
} from '../../src/web/pages/submit/form.ts'
import type { RunKind } from '../../src/web/pages/submit/run-fields.ts'
import type { Entered } from '../../src/web/units.ts'

/** A number as if it had been typed. */
export const n = (value: number): Entered => ({ text: String(value), unit: '', stored: value })

export const SETUP: KnownSetup = {
  id: '0b9c53f2-5f4f-4f0e-8d7a-2b1f6f0f3a11',
  name: 'Marrow M-140 + Sweep 130 + Ring 3',
  drive: 'twoStroke',
  propellerDiameterCm: 130,
  safety: { state: 'none', advisories: [] },
}

/** A form whose every needed field but those of its run is filled in. */
export function formWith(kind: RunKind, change: Partial<ReturnType<typeof blankRun>> = {}): Form {
  const run = { ...blankRun(kind, undefined), ...change }
  return {
    ...blankForm('2026-05-10', null),
    siteName: ' Larkfield ',
    elevationM: n(212),
    temperatureC: n(14.5),
    pilotMassKg: n(82),
    wing: { ...blankForm('2026-05-10', null).wing, flatAreaM2: n(25) },
    entries: [{ ...blankEntry(null, undefined), setup: SETUP, allUpMassKg: n(121), runs: [run] }],
  }
}
