import { z } from 'zod'

import { leavesOf, type ObjectSchema } from './leaves.ts'

/** To which part of a submission a column belongs; a label is in none. */
export type Level = 'label' | 'session' | 'entry' | 'run'

/** Names of fields and places in lists, from the object of the level down. */
export type FieldPath = readonly (string | number)[]

/** A column of a notebook: one field of a submission, or a label. */
export interface NotebookColumn {
  readonly name: string
  readonly level: Level
  readonly path: FieldPath
  readonly type: 'text' | 'number' | 'boolean' | 'day'
  /** As people write it; null where a unit makes no sense. */
  readonly unit: string | null
  readonly description: string
  /** Words it takes; null: any. */
  readonly values: readonly string[] | null
  /** Kinds of run that have it; empty: all, or not of a run. */
  readonly kinds: readonly string[]
  /** In every notebook; what only some kinds of run need is checked row by row. */
  readonly needed: boolean
  /** Rarely known: left out of the template. */
  readonly rare: boolean
}

const label = (name: string, description: string, needed = false): NotebookColumn => ({
  ...{ name, description, needed, level: 'label', path: [], type: 'text', unit: null },
  ...{ values: null, kinds: [], rare: false },
})

/** Who made a part and what it is sold as, in place of `setup_id`. */
export const PART_COLUMNS = ['powerplant', 'propeller', 'frame'].flatMap((part) => [
  `${part}_maker`,
  `${part}_model`,
])

const LABELS: readonly NotebookColumn[] = [
  label(
    'session',
    'Your name for the session: rows of one name and one pilot are one session, with one place, air and wing.',
    true,
  ),
  label(
    'pilot',
    'Your label for who flew, where not you: kept as a pseudonym only, so that pilots stay apart in the statistics. Empty: you.',
  ),
  ...PART_COLUMNS.map((name) =>
    label(
      name,
      `In place of setup_id: ${name.replace('_', ', ')}, where the catalogue knows that name once.`,
    ),
  ),
]

/**
 * The columns of a notebook, out of the schema that submissions are checked by: every field once, as
 * its path in snake case without the names of lists (`conditions_temperature_c`, `height_gain_m`), and
 * `_uncertainty` after the name of what was measured. A further field or kind of run so brings its
 * columns along.
 *
 * @param submission the schema of a submission
 */
export function notebookColumns(submission: z.ZodType): NotebookColumn[] {
  const { entries, ...session } = propertiesOf(submission)
  const { runs, ...entry } = entries!.items!.properties!
  const columns = [
    ...LABELS,
    ...leavesOf({ properties: session, required: rootOf(submission).required }, 'session'),
    ...leavesOf({ ...entries!.items!, properties: entry }, 'entry').map(orByName),
    ...ofRuns(runs!.items!.oneOf!),
  ]
  const twice = columns.find(({ name }, i) => columns.findIndex((c) => c.name === name) !== i)
  if (twice !== undefined) throw new Error(`two fields would have the column ${twice.name}`)
  return columns
}

/** A setup may be named by its parts. */
function orByName(column: NotebookColumn): NotebookColumn {
  return column.name === 'setup_id' ? { ...column, needed: false } : column
}

/** What any kind of run has, each field once. */
function ofRuns(kinds: readonly ObjectSchema[]): NotebookColumn[] {
  const found = new Map<string, NotebookColumn>()
  for (const schema of kinds) {
    const kind = schema.properties?.kind?.const as string
    for (const leaf of leavesOf(schema, 'run')) {
      const known = found.get(leaf.name)
      const values = [...(known?.values ?? []), ...(leaf.values ?? [])]
      found.set(leaf.name, {
        ...(known ?? leaf),
        kinds: leaf.name === 'kind' ? [] : [...(known?.kinds ?? []), kind],
        values: values.length === 0 ? null : [...new Set(values)],
        needed: leaf.name === 'kind',
      })
    }
  }
  return [...found.values()]
}

function propertiesOf(submission: z.ZodType): Readonly<Record<string, ObjectSchema>> {
  return rootOf(submission).properties!
}

/** Zod puts a schema that has an id under `$defs`. */
function rootOf(submission: z.ZodType): ObjectSchema {
  const schema = z.toJSONSchema(submission, { io: 'input' }) as ObjectSchema & {
    readonly $ref?: string
    readonly $defs?: Readonly<Record<string, ObjectSchema>>
  }
  const id = schema.$ref?.split('/').at(-1)
  return id === undefined ? schema : schema.$defs![id]!
}
