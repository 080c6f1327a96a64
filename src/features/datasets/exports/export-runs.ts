import { Readable } from 'node:stream'

import type { PoolClient } from 'pg'

import { ApiProblem } from '../../../contract/problems.ts'
import type { Database } from '../../../db/client.ts'
import { Turns } from '../../../threads/turns.ts'
import { layoutOf } from '../entries/entries-sql.ts'
import { exportSelect } from '../entries/runs-select.ts'
import { ndjsonFromBlocks } from '../files/ndjson.ts'
import { type MakeRowGroups, parquetFromBlocks } from '../files/parquet.ts'
import { CSV_TYPE, copyBlocks, csvFromBlocks, PARQUET_TYPE } from '../release/tables-to-files.ts'
import type { ExportQuery } from '../schema.ts'
import type { Tables } from '../tables/tables.ts'
import { filterSql } from './filter.ts'
import { exportTag, findCurrentState, findState } from './state.ts'
import { prepareUnits } from './units.ts'

export const EXPORT_TYPES: Readonly<Record<ExportQuery['format'], string>> = {
  csv: CSV_TYPE,
  ndjson: 'application/x-ndjson; charset=utf-8',
  parquet: PARQUET_TYPE,
}

/** What live exports are made with. */
export interface ExportSource {
  readonly db: Database
  readonly tables: Tables
  readonly makeGroups: MakeRowGroups
}

/** A live export, and the strong tag of its bytes. */
export interface OpenExport {
  readonly tag: string
  readonly bytes: Readable
}

/**
 * The runs of this moment, with the columns and the privacy of a release. Keys are drawn anew for
 * every state of the evidence; the same state and question have the same bytes. Bytes come as the
 * database gives them; nothing is gathered.
 */
export class LiveExports {
  readonly #source: ExportSource
  /** Who asks while keys and classes are worked out shares the next look at the evidence. */
  readonly #units: Turns

  constructor(source: ExportSource) {
    this.#source = source
    this.#units = new Turns(() => prepareUnits(source.db, source.tables))
  }

  /** Works out what exports of this moment have in common, so that nobody waits for it. */
  prepare(): Promise<void> {
    return this.#units.take()
  }

  /** Waits for what is being worked out. */
  close(): Promise<void> {
    return this.#units.settled()
  }

  /** The tag that the export has in this moment; null where its keys are not drawn yet. */
  async knownTag(query: ExportQuery): Promise<string | null> {
    const { db, tables } = this.#source
    const state = await findCurrentState(db.pool, layoutOf(tables))
    return state?.isWhole ? exportTag(state, query) : null
  }

  /** @throws {ApiProblem} not-ready where a process of another version threw away what was stored */
  async open(query: ExportQuery): Promise<OpenExport> {
    await this.prepare()
    const client = await this.#source.db.pool.connect()
    try {
      await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ')
      const state = await findState(client)
      if (state === null) throw new ApiProblem('not-ready', { detail: TWO_VERSIONS })
      const bytes = streamOf(client, exported(client, this.#source, query))
      return { tag: exportTag(state, query), bytes }
    } catch (error) {
      client.release(true)
      throw error
    }
  }
}

const TWO_VERSIONS =
  'Processes of two versions of the service work on one database. Ask again when the update is done.'

/** A stream that gives its connection back when it ends or is given up. */
function streamOf(client: PoolClient, bytes: AsyncIterable<Uint8Array>): Readable {
  const stream = Readable.from(bytes, { objectMode: false })
  // Who goes away in the middle leaves a COPY that has no end but that of its connection.
  return stream.once('close', () => client.release(!stream.readableEnded))
}

async function* exported(
  client: PoolClient,
  { tables, makeGroups }: ExportSource,
  query: ExportQuery,
): AsyncGenerator<Uint8Array> {
  const { columns } = tables.all.runs
  const blocks = copyBlocks(client, exportSelect(filterSql(query), query.kind))
  switch (query.format) {
    case 'csv':
      yield* csvFromBlocks(columns, blocks)
      break
    case 'ndjson':
      yield* ndjsonFromBlocks(columns, blocks)
      break
    case 'parquet':
      yield* parquetFromBlocks(columns, blocks, makeGroups)
  }
  await client.query('COMMIT')
}
