import { parseArgs } from 'node:util'
import { STUDIED, type StudiedMetric } from './study/pairs.ts'
import { type Recovery, recover } from './study/recover.ts'
import { HEADING, tableRow } from './study/table.ts'
import { habitNamed } from './world/habits.ts'
import { sourcesNamed, switches } from './world/sources.ts'

/**
 * The recovery study by hand:
 *
 *     npx tsx tests/recovery/study.ts --habits season,sparse --pilots 12,30,120 --seeds 20 \
 *       --without wings,air --plus specimen
 */
const { values } = parseArgs({
  options: {
    habits: { type: 'string', default: 'season' },
    pilots: { type: 'string', default: '12,30,120' },
    seeds: { type: 'string', default: '20' },
    from: { type: 'string', default: '1' },
    without: { type: 'string', default: '' },
    plus: { type: 'string', default: '' },
  },
})

const list = (text: string) => text.split(',').filter((word) => word !== '')
const write = (line: string) => process.stdout.write(`${line}\n`)

const on = switches({
  without: sourcesNamed(list(values.without)),
  plus: sourcesNamed(list(values.plus)),
})
const seeds = Array.from({ length: Number(values.seeds) }, (_, i) => Number(values.from) + i)

write(HEADING.join('\n'))
for (const habits of list(values.habits).map(habitNamed)) {
  for (const pilots of list(values.pilots).map(Number)) {
    const recovery: Recovery = recover({ pilots, habits, seeds, on })
    for (const metric of Object.keys(STUDIED) as StudiedMetric[]) write(tableRow(recovery, metric))
  }
}
