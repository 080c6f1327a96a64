import type { z } from 'zod'

import { type Column, columnsOf } from './column.ts'
import { type RawField, rawFieldsOf } from './raw-fields.ts'
import { AggregateRow, ComponentRow, EffectRow, FitRow, SetupRow } from './result-tables.ts'
import { RunRow, SystematicRow } from './run-table.ts'

export const TABLE_NAMES = [
  'runs',
  'systematic',
  'setups',
  'components',
  'aggregates',
  'effects',
  'fit',
] as const

export type TableName = (typeof TABLE_NAMES)[number]

/** A table of the dataset: one CSV and one Parquet file. */
export interface Table {
  readonly name: TableName
  readonly title: string
  readonly description: string
  readonly columns: readonly Column[]
  readonly primaryKey: readonly string[] | null
  readonly foreignKeys: readonly ForeignKey[]
}

export interface ForeignKey {
  readonly fields: readonly string[]
  readonly table: TableName
  readonly references: readonly string[]
}

/** The tables of a release, and what the runs take out of the bodies of submissions. */
export interface Tables {
  readonly all: Readonly<Record<TableName, Table>>
  readonly rawFields: readonly RawField[]
}

const toSetup = (field = 'setup_id'): ForeignKey => ({
  fields: [field],
  table: 'setups',
  references: ['setup_id'],
})
const toComponent = (field: string): ForeignKey => ({
  fields: [field],
  table: 'components',
  references: ['component_id'],
})

/** @param runs the schema that runs of a submission are checked by */
export function tablesFor(runs: z.ZodType): Tables {
  const rawFields = rawFieldsOf(runs)
  const all: Tables['all'] = {
    runs: {
      name: 'runs',
      title: 'Runs',
      description:
        'Every run that counts: what was read off, what came out at the reference state, and the keys of its groups.',
      columns: [...columnsOf(RunRow), ...rawFields.map((field) => field.column)],
      primaryKey: ['run_key'],
      foreignKeys: [toSetup()],
    },
    systematic: {
      name: 'systematic',
      title: 'Systematic effects',
      description:
        'Errors of the runs that more flights do not average out, or only flights by others.',
      columns: columnsOf(SystematicRow),
      primaryKey: ['run_key', 'cause', 'reach'],
      foreignKeys: [{ fields: ['run_key'], table: 'runs', references: ['run_key'] }],
    },
    setups: {
      name: 'setups',
      title: 'Setups',
      description: 'Engines with propellers on frames: what is compared.',
      columns: columnsOf(SetupRow),
      primaryKey: ['setup_id'],
      foreignKeys: [
        toComponent('powerplant_id'),
        toComponent('propeller_id'),
        toComponent('frame_id'),
      ],
    },
    components: {
      name: 'components',
      title: 'Components',
      description: 'What the setups are made of, as the catalogue has it.',
      columns: columnsOf(ComponentRow),
      primaryKey: ['component_id'],
      foreignKeys: [],
    },
    ...resultTables(),
  }
  return { all, rawFields }
}

function resultTables(): Pick<Tables['all'], 'aggregates' | 'effects' | 'fit'> {
  return {
    aggregates: {
      name: 'aggregates',
      title: 'Aggregates',
      description: 'Every setup for every weight class and metric: what the rankings show.',
      columns: columnsOf(AggregateRow),
      primaryKey: ['metric', 'quantity', 'variant', 'all_up_mass_class', 'setup_id'],
      foreignKeys: [toSetup()],
    },
    effects: {
      name: 'effects',
      title: 'Effects',
      description:
        'Estimates of the model on its logarithmic scale; reproduce.R writes this table again.',
      columns: columnsOf(EffectRow),
      primaryKey: ['metric', 'setup_id'],
      foreignKeys: [toSetup()],
    },
    fit: {
      name: 'fit',
      title: 'Fit',
      description: 'Variance components and covariances of the model, one number per row.',
      columns: columnsOf(FitRow),
      primaryKey: null,
      foreignKeys: [toSetup('setup_id_a'), toSetup('setup_id_b')],
    },
  }
}
