import { benchDatasets } from './datasets.bench.ts'
import { benchEvidence } from './evidence.bench.ts'
import { benchFit } from './fit.bench.ts'
import { benchLargeFits } from './large-fit.bench.ts'
import { benchAgainstLme4 } from './lme4.bench.ts'
import { benchNormalise } from './normalise.bench.ts'
import { benchRanking } from './ranking.bench.ts'
import { benchRefresh } from './refresh.bench.ts'
import { benchSubmissions } from './submissions.bench.ts'

/** `npm run bench`: speed, as ratios of one run; absolute figures hold for this machine and this moment. */
const write = (line: string) => {
  process.stdout.write(`${line}\n`)
}

const parts: Readonly<Record<string, (write: (line: string) => void) => Promise<unknown>>> = {
  'Fit of the nested model': benchFit,
  'Large fits, each in a process of its own': benchLargeFits,
  'The same runs fitted by lme4': benchAgainstLme4,
  'A refresh, part by part': benchEvidence,
  'A hundred new runs beside a hundred thousand': benchRefresh,
  'Rankings of many setups': benchRanking,
  'Normalisation in process': benchNormalise,
  'Submissions on a real database': benchSubmissions,
  'Live export of runs': benchDatasets,
}

for (const [title, bench] of Object.entries(parts)) {
  write(title)
  await bench(write)
  write('')
}
