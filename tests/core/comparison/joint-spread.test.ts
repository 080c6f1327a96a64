import { describe, expect, it } from 'vitest'

import { spreadOfReadings } from '../../../src/core/comparison/joint-spread.ts'
import { wideQuestion } from '../../support/wide-fit.ts'

describe('spreadOfReadings', () => {
  it('says of every pair what the fit says of it as a contrast', () => {
    const { question, candidates } = wideQuestion({ runs: 600, setups: 12 })
    const { fit } = question
    const ids = candidates.map(({ setupId }) => setupId).reverse()
    const elasticities = Float64Array.from(ids, (_, k) => 1 + 0.05 * k)
    const m = ids.length
    const places = Int32Array.from(ids, (id) => fit.placeOf(id)!)
    const found = spreadOfReadings(fit.jointSpread()!, { places, elasticities })
    for (let k = 0; k < m; k++) {
      for (let l = 0; l < m; l++) {
        const [a, b] = [ids[k]!, ids[l]!]
        const covariance = elasticities[k]! * elasticities[l]! * fit.covarianceOf(a, b)
        expect(found.covariance[k + l * m]! / covariance).toBeCloseTo(1, 12)
        if (k === l) continue
        const pair = fit.contrast([
          { setup: a, weight: elasticities[k]! },
          { setup: b, weight: -elasticities[l]! },
        ])
        expect(found.standardErrors[k + l * m]! / pair.standardError).toBeCloseTo(1, 10)
        expect(found.degreesOfFreedom[k + l * m]! / pair.degreesOfFreedom).toBeCloseTo(1, 9)
      }
    }
  })
})
