import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { answerForPair, type Candidate } from '../../src/core/comparison/compare.ts'
import {
  DECIBELS_PER_NEPER,
  METRIC_FACTS,
  type Metric,
  type Quantity,
} from '../../src/core/comparison/metric.ts'
import { readMetric } from '../../src/core/comparison/reading.ts'
import { restoreFit, type StoredFitHeader, viewOf } from '../../src/core/comparison/stored-fit.ts'
import { studentTQuantile } from '../../src/core/distributions/student-t.ts'
import { REFERENCE } from '../../src/core/normalise/reference.ts'
import type { Drive } from '../../src/core/normalise/types.ts'
import { Pcg32 } from '../../src/core/random/pcg32.ts'
import { loadDemo } from '../../src/demo/load.ts'
import { simulateEvenings } from '../../src/demo/simulate.ts'
import { readWorld, type World } from '../../src/demo/world.ts'
import { startTestApp, type TestApp } from '../support/app.ts'

let test: TestApp
let world: World
let loaded: number

beforeAll(async () => {
  test = await startTestApp()
  world = await readWorld()
  loaded = await loadDemo(test.db)
  await test.app.fits.refresh()
})

afterAll(() => test.close())

/** The demo's key of each setup, by id. */
async function keys(): Promise<Map<string, string>> {
  const rows = await test.db.prisma.setup.findMany({
    include: { powerplant: true, propeller: true, frame: true },
  })
  const names = Object.entries(world.catalogue.setups).map(([key, parts]) => {
    const [engine, propeller, frame] = parts.map((part) => world.catalogue.components[part]!)
    const name = [
      engine!.model,
      engine!.tune,
      propeller!.model,
      propeller!.diameterCm,
      frame!.model,
    ]
    return [name.join(), key] as const
  })
  const byName = new Map(names)
  return new Map(
    rows.map(({ id, powerplant: e, propeller: p, frame: f }) => [
      id,
      byName.get([e.model, e.tune ?? undefined, p.model, p.diameterCm, f.model].join())!,
    ]),
  )
}

async function currentFit(quantity: string) {
  const { fit } = await test.db.prisma.currentFit.findUniqueOrThrow({
    where: { quantity },
    include: { fit: true },
  })
  const numbers = new Float64Array(new Uint8Array(fit.numbers).buffer)
  return restoreFit({ header: fit.header as unknown as StoredFitHeader, numbers })
}

describe('the demo', () => {
  it('is the size it says: 25 pilots, 12 setups, 80 evenings', async () => {
    expect(loaded).toBe(80)
    expect(await test.db.prisma.account.count()).toBe(25)
    expect(await test.db.prisma.setup.count()).toBe(12)
    const { rows } = await test.db.pool.query(
      'SELECT count(DISTINCT account_id) AS pilots FROM submission',
    )
    expect(Number(rows[0].pilots)).toBe(25)
  })

  it('is not loaded twice, nor beside what somebody submitted', async () => {
    expect(await loadDemo(test.db)).toBe(0)
  })

  it('flies the same evenings from the same seed, and others from another', () => {
    const evenings = JSON.stringify(simulateEvenings(world, new Pcg32(5)))
    expect(JSON.stringify(simulateEvenings(world, new Pcg32(5)))).toBe(evenings)
    expect(JSON.stringify(simulateEvenings(world, new Pcg32(6)))).not.toBe(evenings)
  })

  it('has light and heavy ends, high and low fields, hot and cold days, and a dealer', () => {
    const bodies = simulateEvenings(world, new Pcg32(41)).map(({ body }) => body)
    const masses = bodies.flatMap(({ entries }) => entries.map(({ allUpMassKg }) => allUpMassKg))
    expect(Math.min(...masses)).toBeLessThan(100)
    expect(Math.max(...masses)).toBeGreaterThan(200)
    const heights = bodies.map(({ site }) => (site as { elevationM: number }).elevationM)
    expect(Math.min(...heights)).toBeLessThan(10)
    expect(Math.max(...heights)).toBeGreaterThan(1700)
    const celsius = bodies.map(
      ({ conditions }) => (conditions as { temperatureC: number }).temperatureC,
    )
    expect(Math.min(...celsius)).toBeLessThan(3)
    expect(Math.max(...celsius)).toBeGreaterThan(28)
    expect(bodies.filter(({ interest }) => interest === 'dealer')).toHaveLength(1)
  })

  it('leaves one setup unranked: nobody flew it beside another', async () => {
    const { body } = await test.request.get('/v1/rankings?metric=climbRate&massClass=100to120')
    expect(body.ranked).toHaveLength(11)
    expect(body.unranked).toHaveLength(1)
    expect(body.unranked[0].refused.reasonCode).toBe('notConnected')
    expect((await keys()).get(body.unranked[0].setupId)).toBe('h250-sweep130-basket')
  })

  // The truth is known, since the demo is generated. 55 pairs of 11 setups share their errors, so
  // the share of intervals that hold it scatters widely about 95 %; below 75 % something is wrong.
  // The recovery study proper uses other physics than the normalisation and many communities.
  it.each(['climbRate', 'fuelFlow', 'staticThrust', 'soundLevel'] as const)(
    'finds the truth of %s inside most intervals',
    async (metric) => {
      const { covered, pairs, meanError } = await againstTruth(metric)
      // Fewer pulls and sound levels than climbs: some pairs hang on one session and are refused.
      expect(pairs).toBeGreaterThan(metric === 'climbRate' ? 54 : 20)
      expect(covered / pairs).toBeGreaterThan(0.75)
      expect(meanError).toBeLessThan(metric === 'soundLevel' ? 0.1 : 0.05) // 0.1 is 0.9 dB
    },
  )
})

/** How many pairs' 95 % intervals hold the true difference, and the mean size of the error in ln. */
async function againstTruth(metric: Metric) {
  const fit = viewOf(await currentFit(METRIC_FACTS[metric].quantity))
  const known = [...(await keys())].filter(([, key]) => key !== 'h250-sweep130-basket')
  const question = { metric, state: REFERENCE, fit }
  let covered = 0
  let pairs = 0
  let error = 0
  for (const [i, [idA, keyA]] of known.entries()) {
    for (const [idB, keyB] of known.slice(i + 1)) {
      const answer = answerForPair(question, candidate(idA, keyA), candidate(idB, keyB))
      if (answer.refusal !== null) continue
      const truth = trueLog(metric, keyA) - trueLog(metric, keyB)
      const { estimate, standardError, degreesOfFreedom } = answer.difference
      const miss = Math.abs(estimate - truth)
      pairs++
      error += miss
      if (miss <= studentTQuantile(0.975, degreesOfFreedom) * standardError) covered++
    }
  }
  return { covered, pairs, meanError: error / pairs }
}

function candidate(setupId: string, key: string): Candidate {
  const [engine, propeller] = world.catalogue.setups[key]!
  return {
    setupId,
    equipment: {
      drive: world.catalogue.components[engine]!.drive as Drive,
      propellerDiameterCm: Number(world.catalogue.components[propeller]!.diameterCm),
    },
  }
}

/** ln of what the metric's differences are taken of, at the reference state. */
function trueLog(metric: Metric, key: string): number {
  const truth = world.truth.setups[key]!
  const logOf: Readonly<Record<Quantity, number>> = {
    inducedPower: Math.log(truth.inducedPowerW),
    fuelFlow: Math.log(truth.fuelFlowLPerH),
    electricPower: Number.NaN,
    staticThrust: Math.log(truth.staticThrustN),
    soundAtEar: truth.soundAtEarDb / DECIBELS_PER_NEPER,
    soundAtDistance: Number.NaN,
  }
  const { equipment } = candidate('', key)
  const estimate = logOf[METRIC_FACTS[metric].quantity]
  return readMetric(metric, estimate, { equipment, state: REFERENCE }).logValue!
}
