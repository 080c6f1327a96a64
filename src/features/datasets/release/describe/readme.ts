import type { QuasiIdentifier } from '../../privacy/attributes.ts'
import type { Column } from '../../tables/column.ts'
import type { Tables } from '../../tables/tables.ts'
import { citationOf, DESCRIPTION, LICENCE, type ReleaseFacts, TITLE } from '../facts.ts'

/** README.md of a release: what is in it, what was held back, and the data dictionary. */
export function readme(facts: ReleaseFacts, tables: Tables): string {
  return [
    `# ${TITLE}`,
    `Release ${facts.id}, number ${facts.number}. ${DESCRIPTION}`,
    `Licence: ${LICENCE.title} (${LICENCE.path}). Cite as: ${citationOf(facts)}`,
    safety,
    '## Files',
    fileList(tables),
    '## What it rests on',
    origin(facts),
    '## Reproduce it',
    reproduction,
    '## Privacy',
    privacy(facts),
    '## Changes',
    facts.changes.map((change) => `- ${change}`).join('\n'),
    '## Data dictionary',
    ...Object.values(tables.all).map(
      ({ name, title, description, columns }) =>
        `### ${name}: ${title}\n\n${description}\n\n${dictionary(columns)}`,
    ),
    '',
  ].join('\n\n')
}

/** CHANGELOG.md of a release. */
export function changelog({ id, changes }: ReleaseFacts): string {
  return `# ${id}\n\n${changes.map((change) => `- ${change}`).join('\n')}\n`
}

const safety =
  'Nothing here says that a setup is safe. Local codes and the judgement of licensed practice come first; `safety_state` in `setups` shows reports that stood when the release was made.'

function fileList({ all }: Tables): string {
  const tables = Object.values(all).map(
    ({ name, title }) => `- \`${name}.csv\`, \`${name}.parquet\`: ${title.toLowerCase()}`,
  )
  return [
    ...tables,
    '- `datapackage.json`: Frictionless data package; `csv-metadata.json`: CSV on the Web',
    '- `reproduce.R`: fits the model again and writes `reproduced.csv`',
    '- `CITATION.cff`, `datacite.json`, `dataset.jsonld`: how to cite and index it',
    '- `SHA256SUMS`: checksums of all files; its own SHA-256 names the release',
    '',
    'CSV is that of RFC 4180: UTF-8, comma, CR LF, an empty cell is a missing value. Text that a spreadsheet would run as a formula has an apostrophe in front. Parquet holds the same values, typed.',
  ].join('\n')
}

function origin(facts: ReleaseFacts): string {
  const { runs, sessions, pilots } = facts.anonymity
  const fits = facts.fits.map(
    ({ metric, fitId, runs: n }) => `- ${metric}: ${n} runs, fit \`${fitId}\``,
  )
  return [
    `A consistent snapshot of ${facts.snapshotAt.toISOString()}: ${runs} runs of ${sessions} sessions by ${pilots} pilots on ${facts.setups} setups; method ${facts.methodVersion}, model ${facts.modelVersion}.`,
    '',
    ...fits,
  ].join('\n')
}

const reproduction = `\`Rscript reproduce.R\` in this folder needs R with the package metafor. It reproduces the nested model of
every metric (REML with the known uncertainties of the runs) and, on top of it, the systematic terms:
\`estimate\`, \`standard_error\` (before systematic terms) and \`standard_error_with_systematic\`. What the
model is fitted to (\`log_value\`, its uncertainties and the keys of the groups) is not rounded, so
nothing is lost: the estimates agree within 1e-4 of a standard error. What was rounded or
suppressed (readings, classes, months) takes no part in the fit; it only keeps the results from being
normalised again from the readings.`

function privacy({ anonymity }: ReleaseFacts): string {
  const { k, runs, suppressedRuns, rangeRuns = {}, kept = {} } = anonymity
  const rows = Object.entries(suppressedRuns).map(([name, suppressed]) => {
    const column = name as QuasiIdentifier
    const share = kept[column] === undefined ? '' : `${(100 * kept[column]).toFixed(0)} %`
    return `| ${column} | ${suppressed} | ${rangeRuns[column] ?? ''} | ${share} |`
  })
  return [
    'Keys of pilots, sessions and runs are drawn at random for this release and lead to nothing outside it; rows are in the order of these keys. There is no free text, no name, no place, no day.',
    '',
    `All-up mass, elevation, wing area, interest and motion of the air are given as classes or ranges of classes, the date as a month or a range of months. Every combination of them that is shown is shared by at least k = ${k} pilots. Beyond that, whoever knows all flights of a pilot by mass, place, wing and month, and keeps only the keys with rows that fit every one of them, is left with at least ${k} keys. Where there are fewer than ${k} pilots, nothing is shown. Ranges are made as narrow as these two rules let them be: a set of rows is cut in two, at the column and value where the most is kept, as long as both rules hold. Readings are rounded to two significant digits, so that mass, place and weather cannot be computed back closely from them and the result.`,
    '',
    `Of ${runs} runs, those in which a column is empty, those that show a range, and the share of what the classes tell that is kept over all runs (1 for a class, 0 for nothing, between them by the width of the range):`,
    '',
    '| column | empty | range | kept |',
    '|---|---|---|---|',
    ...rows,
    '',
    'Limits: the setup itself is not hidden, since it is what the data are about, nor how many sessions a key has. So a setup together with what is shown beside it may belong to fewer than k pilots, and who is known to be the only one to fly a setup can be recognised by it; the other rows under the same key then tell no more than the ranges that at least four others share. Results are not rounded, so rows can be recognised in another release, and somebody who has the original readings of a flight can compute its result.',
  ].join('\n')
}

function dictionary(columns: readonly Column[]): string {
  const rows = columns.map((column) => {
    const unit = column.unit === null || column.unit === '1' ? '' : column.unit
    const cells = [column.name, column.type, unit, constraintsOf(column), column.description]
    return `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`
  })
  return [
    '| column | type | unit | constraints | meaning |',
    '|---|---|---|---|---|',
    ...rows,
  ].join('\n')
}

function constraintsOf({ nullable, minimum, maximum, values }: Column): string {
  return [
    nullable ? 'may be empty' : 'required',
    ...(minimum === null ? [] : [`≥ ${minimum}`]),
    ...(maximum === null ? [] : [`≤ ${maximum}`]),
    ...(values === null ? [] : [`one of ${values.join(', ')}`]),
  ].join('; ')
}
