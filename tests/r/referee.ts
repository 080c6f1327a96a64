import { execFile, spawnSync } from 'node:child_process'
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { promisify } from 'node:util'

import type { Component } from '../../src/core/mixed/components.ts'
import { buildLayout, type Layout, type Observation } from '../../src/core/mixed/layout.ts'

/** A run as both sides are given it. */
export interface RefereedRun extends Observation {
  /** Known standard uncertainty common to the runs of the session [unit of y]. */
  readonly shared: number
}

/** A mean or a difference as R reports it; degrees of freedom from lmerTest only. */
export interface RefereedValue {
  readonly a: string
  readonly b: string
  readonly estimate: number
  readonly standardError: number
  readonly degreesOfFreedom: number | null
}

/** What R makes of the runs. */
export interface Verdict {
  readonly logLikelihood: number
  readonly theta: Readonly<Partial<Record<Component, number>>>
  readonly means: readonly RefereedValue[]
  readonly differences: readonly RefereedValue[]
  readonly versions: string
}

const PACKAGES = ['lme4', 'lmerTest', 'metafor', 'metadat', 'nlme'] as const

/** Why R cannot be asked here; null where it can. CI installs it, elsewhere the tests are skipped. */
export const MISSING = missing()
if (MISSING !== null) process.stdout.write(`    tests before R are skipped: ${MISSING}\n`)

function missing(): string | null {
  const ask = `cat(Filter(function(p) !requireNamespace(p, quietly = TRUE), c(${PACKAGES.map((p) => `"${p}"`).join()})))`
  const { status, stdout } = spawnSync('Rscript', ['-e', ask], { encoding: 'utf8' })
  if (status !== 0) return 'there is no Rscript'
  return stdout.trim() === '' ? null : `R lacks ${stdout.trim()}`
}

/** Runs of a public data set that comes with R. */
export async function publicRuns(name: string): Promise<RefereedRun[]> {
  return inScratch(async (folder) => {
    await runScript(folder, 'export.R', name)
    return (await readRows(join(folder, 'runs.csv'))).map((row) => ({
      setup: row.setup!,
      session: row.session!,
      pilot: row.pilot!,
      y: Number(row.y),
      u: Number(row.u),
      shared: Number(row.shared),
    }))
  })
}

/** Has R fit the model with these components to the runs. Ids must hold no comma. */
export async function askR(
  referee: 'lme4' | 'metafor',
  runs: readonly RefereedRun[],
  components: readonly Component[],
): Promise<Verdict> {
  return inScratch(async (folder) => {
    const lines = runs.map((r) => [r.y, r.u, r.setup, r.session, r.pilot, r.shared].join())
    await writeFile(
      join(folder, 'runs.csv'),
      `y,u,setup,session,pilot,shared\n${lines.join('\n')}\n`,
    )
    await runScript(folder, `${referee}.R`, components.join())
    return verdictOf(await readRows(join(folder, 'answer.csv')))
  })
}

/** The runs as the core is given them. */
export function layoutOf(runs: readonly RefereedRun[]): Layout {
  const knownSessionVariance = new Map(runs.map(({ session, shared }) => [session, shared ** 2]))
  return buildLayout(runs, { knownSessionVariance })
}

type Row = Readonly<Record<string, string>>

function verdictOf(rows: readonly Row[]): Verdict {
  const of = (kind: string) => rows.filter((row) => row.kind === kind)
  const values = (kind: string) =>
    of(kind).map(({ a, b, value, se, df }) => ({
      a: a!,
      b: b!,
      estimate: Number(value),
      standardError: Number(se),
      degreesOfFreedom: df === '' ? null : Number(df),
    }))
  return {
    logLikelihood: Number(of('logLik')[0]!.value),
    theta: Object.fromEntries(of('theta').map(({ a, value }) => [a, Number(value)])),
    means: values('mean'),
    differences: values('difference'),
    versions: of('version')
      .map(({ a, b }) => `${a} ${b}`)
      .join(', '),
  }
}

async function inScratch<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'fairclimb-r-'))
  try {
    return await work(folder)
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

async function runScript(cwd: string, script: string, argument: string): Promise<void> {
  const path = new URL(`scripts/${script}`, import.meta.url).pathname
  await promisify(execFile)('Rscript', [path, argument], { cwd })
}

/** A table R wrote without quotes. */
async function readRows(path: string): Promise<Row[]> {
  const [header, ...lines] = (await readFile(path, 'utf8')).trimEnd().split('\n')
  const names = header!.split(',')
  return lines.map((line) => {
    const fields = line.split(',')
    return Object.fromEntries(names.map((name, i) => [name, fields[i]!]))
  })
}
