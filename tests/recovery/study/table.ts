import type { StudiedMetric } from './pairs.ts'
import type { Recovery } from './recover.ts'
import type { Figure } from './summary.ts'

const COLUMNS = [
  'habits ',
  'pilots',
  'runs',
  'metric   ',
  'pairs',
  'refused',
  'coverage     ',
  'below 10 %   ',
  'above 10 %   ',
  'width %',
  'small',
  'large',
  'rmse %',
  'raw %',
  'ratio        ',
  'rms z',
  'stretch      ',
  'its sd',
] as const

/** Head of the table, in Markdown. */
export const HEADING = [
  `| ${COLUMNS.join(' | ')} |`,
  `|${COLUMNS.map((name) => '-'.repeat(name.length + 2)).join('|')}|`,
]

/**
 * One line of the table. Widths and errors are of ln(a/b), times 100: about percent. Figures in
 * brackets are standard errors with whole communities as the independent units.
 */
export function tableRow(recovery: Recovery, metric: StudiedMetric): string {
  const { habits, pilots } = recovery
  const it = recovery.metrics[metric]
  const percent = (value: number) => (100 * value).toFixed(2)
  const cells = [
    habits,
    String(pilots),
    it.runs.toFixed(0),
    metric,
    String(it.pairs),
    String(it.refused),
    figure(it.coverage),
    figure(it.coverageSmall),
    figure(it.coverageLarge),
    percent(it.width),
    percent(it.widthSmall),
    percent(it.widthLarge),
    percent(it.rmse),
    percent(it.rmseRaw),
    figure(it.ratio),
    it.rmsScore.toFixed(2),
    figure(it.stretch),
    it.stretchSd.toFixed(3),
  ]
  return `| ${cells.map((cell, i) => cell.padEnd(COLUMNS[i]!.length)).join(' | ')} |`
}

function figure({ mean, standardError }: Figure): string {
  return `${mean.toFixed(3)} (${standardError.toFixed(3)})`
}
