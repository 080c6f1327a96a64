import { describe, expect, it } from 'vitest'
import { evaluateAt } from '../../../src/core/mixed/evaluate.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout } from '../../../src/core/mixed/layout.ts'
import {
  type FitHeader,
  InvalidPackedFitError,
  packFit,
  unpackFit,
} from '../../../src/core/mixed/serialise.ts'
import { referenceFit } from './reference-fits.ts'

const run = (y: number, setup: string) => ({ y, u: 0, setup, session: 's', pilot: 'p' })

describe('a packed fit', () => {
  it.each([
    ['an ordinary fit', fitNested(referenceFit('sim_metafor_known_u').layout)],
    [
      'a fit with fixed components',
      fitNested(referenceFit('pastes').layout, { fixed: { cell: 0 } }),
    ],
    ['a fit of nothing', fitNested(buildLayout([]))],
    ['a fit without standard errors', fitNested(buildLayout([run(1, 'a'), run(2, 'b')]))],
  ])('comes back bit for bit through JSON and bytes: %s', (_, fit) => {
    const { header, numbers } = packFit(fit)
    const text = JSON.stringify(header)
    const bytes = new Uint8Array(numbers.buffer.slice(0))
    const back = unpackFit({
      header: JSON.parse(text) as FitHeader,
      numbers: new Float64Array(bytes.buffer),
    })
    expect(back).toEqual(fit)
  })

  it('is read as it was packed before the slopes of the covariance stood in it', () => {
    const { layout } = referenceFit('sim_metafor_known_u')
    const fit = fitNested(layout)
    const { sensitivity } = evaluateAt(layout, fit.theta)
    const before = packFit({ ...fit, covarianceSlope: sensitivity })
    const header = { ...before.header, packingVersion: 1 }
    expect(unpackFit({ ...before, header })).toEqual(fit)
  })

  it('is refused with the numbers of another fit or version', () => {
    const { header, numbers } = packFit(fitNested(referenceFit('machines').layout))
    const short = { header, numbers: numbers.subarray(1) }
    expect(() => unpackFit(short)).toThrow(InvalidPackedFitError)
    expect(() => unpackFit({ header: { ...header, packingVersion: 0 }, numbers })).toThrow(
      'got version 0',
    )
  })
})
