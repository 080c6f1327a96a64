import { benchDatasets } from './datasets.bench.ts'
import { benchEvidence } from './evidence.bench.ts'
import { benchFit } from './fit.bench.ts'
import { benchLargeFits } from './large-fit.bench.ts'
import { benchAgainstLme4 } from './lme4.bench.ts'
import { benchNormalise } from './normalise.bench.ts'
import { benchRanking } from './ranking.bench.ts'
import { benchRefresh } from './refresh.bench.ts'
import { benchSubmissions } from './submissions.bench.ts'

/**
 * `npm run bench`: speed, as ratios of one run; absolute figures hold for this machine and this moment. Names of
 * parts as arguments: only those.
 */
const write = (line: string) => {
  process.stdout.write(`${line}\n`)
}

interface Part {
  readonly title: string
  readonly bench: (write: (line: string) => void) => Promise<unknown>
}

const parts: Readonly<Record<string, Part>> = {
  fit: { title: 'Fit of the nested model', bench: benchFit },
  'large-fit': { title: 'Large fits, each in a process of its own', bench: benchLargeFits },
  lme4: { title: 'The same runs fitted by lme4', bench: benchAgainstLme4 },
  evidence: { title: 'A refresh, part by part', bench: benchEvidence },
  refresh: { title: 'A hundred new runs beside a hundred thousand', bench: benchRefresh },
  ranking: { title: 'Rankings of many setups', bench: benchRanking },
  normalise: { title: 'Normalisation in process', bench: benchNormalise },
  submissions: { title: 'Submissions on a real database', bench: benchSubmissions },
  datasets: { title: 'Live export of runs, and a release', bench: benchDatasets },
}

const asked = process.argv.slice(2)
const unknown = asked.filter((name) => !(name in parts))
if (unknown.length > 0) {
  throw new Error(`no such part: ${unknown.join(', ')}; there are ${Object.keys(parts).join(', ')}`)
}

for (const [name, { title, bench }] of Object.entries(parts)) {
  if (asked.length > 0 && !asked.includes(name)) continue
  write(title)
  await bench(write)
  write('')
}
