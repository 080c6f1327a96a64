import { z } from 'zod'

import { forest } from '../../charts/forest.ts'
import { differenceRows, rankRows, valueRows } from '../../charts/setup-rows.ts'
import { svgText } from '../../charts/svg-text.ts'
import type { Metric } from '../../contract/metrics.ts'
import { type Comparison, ComparisonQuery } from './schema.ts'

export const PictureQuery = ComparisonQuery.safeExtend({
  chart: z
    .enum(['values', 'differences', 'ranks'])
    .default('values')
    .describe('What is drawn; differences are against the setup named first'),
  widthPx: z.coerce.number().int().min(320).max(1600).default(720).describe('Width [px]'),
})

export type PictureQuery = z.infer<typeof PictureQuery>

const AXIS: Readonly<Record<Metric, string>> = {
  climbRate: 'Climb rate, m/s',
  climbThrust: 'Thrust in the climb, N',
  fuelFlow: 'Fuel flow in level flight, L/h',
  electricPower: 'Electric power in level flight, W',
  staticThrust: 'Static thrust, N',
  soundLevel: 'Sound level, dB(A)',
}

/** The charts of a comparison as the pages draw them, for reports and forums: SI units, white paper. */
export function pictureOf(comparison: Comparison, { chart, widthPx }: PictureQuery): string {
  const { metric, setups, pairs, conditions } = comparison
  const { allUpMassKg, elevationM, temperatureC } = conditions
  const at = `${round(allUpMassKg)} kg, ${round(elevationM)} m, ${round(temperatureC)} °C`
  if (chart === 'ranks') {
    const title = `Ranks at ${at}`
    const write = (rank: number) => String(Math.round(rank))
    const [noun = ''] = AXIS[metric].split(',')
    const axis = `Rank by ${noun.toLowerCase()}, 1 is best`
    return svgText(
      forest(rankRows(setups), { widthPx, title, axis, write, positions: setups.length }),
    )
  }
  if (chart === 'values') {
    const title = `${AXIS[metric]} at ${at}`
    const write = metric === 'climbRate' || metric === 'fuelFlow' ? fixed(2) : fixed(0)
    return svgText(forest(valueRows(setups), { widthPx, title, axis: title, write }))
  }
  const first = setups[0]!
  const margin = comparison.equivalenceMarginPercent ?? comparison.equivalenceMarginDb ?? 0
  const unit = comparison.equivalenceMarginDb === undefined ? '%' : 'dB'
  const axis = `Difference from ${first.name}, ${unit}, at ${at}`
  return svgText(
    forest(differenceRows(setups, pairs, first.setupId), {
      widthPx,
      title: axis,
      axis,
      write: (value) => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(1)}`,
      zero: 0,
      margin: [-margin, margin],
    }),
  )
}

function fixed(decimals: number): (value: number) => string {
  return (value) => value.toFixed(decimals)
}

function round(value: number): number {
  return Math.round(value * 10) / 10
}
