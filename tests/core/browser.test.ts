import { readdirSync } from 'node:fs'
import { createContext, runInContext } from 'node:vm'
import { build } from 'esbuild'
import { beforeAll, describe, expect, it } from 'vitest'

import { normaliseRun } from '../../src/core/normalise/run.ts'
import { SCENARIO_A } from './normalise/scenario-a.ts'

const CORE = new URL('../../src/core/', import.meta.url).pathname

/** Every module of the core in one script for browsers, nothing left outside. */
async function bundled(): Promise<string> {
  const modules = readdirSync(CORE, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .sort()
  const entry = modules.map((file, i) => `export * as m${i} from './${file}'`)
  const named = `export { normaliseRun } from './normalise/run.ts'\nexport { normaliseSubmission } from './normalise/submission.ts'`
  const { outputFiles } = await build({
    stdin: { contents: [...entry, named].join('\n'), resolveDir: CORE, loader: 'ts' },
    bundle: true,
    write: false,
    platform: 'browser',
    format: 'iife',
    globalName: 'core',
    target: 'es2022',
    logLevel: 'silent',
  })
  return outputFiles[0]!.text
}

describe('the core in a browser', () => {
  let script: string
  beforeAll(async () => {
    script = await bundled()
  })

  /** Evaluates there: the language itself, and nothing of Node around it. */
  const evaluate = (expression: string): unknown => {
    const context = createContext({}, { codeGeneration: { strings: false, wasm: false } })
    // Nor anything that would make two machines differ.
    runInContext('delete globalThis.console; delete globalThis.Date; delete Math.random', context)
    runInContext(script, context)
    return JSON.parse(runInContext(`JSON.stringify(${expression})`, context) as string)
  }

  it('has no Node around it in this test, no clock and no chance', () => {
    const absent = ['process', 'require', 'Buffer', 'console', 'performance', 'Date', 'Math.random']
    expect(evaluate(`[${absent.map((name) => `typeof ${name}`).join(', ')}]`)).toEqual(
      absent.map(() => 'undefined'),
    )
  })

  it('normalises the worked scenario to the same figures', () => {
    const there = evaluate(`core.normaliseRun(${JSON.stringify(SCENARIO_A)})`)
    expect(there).toEqual(JSON.parse(JSON.stringify(normaliseRun(SCENARIO_A))))
  })

  it('normalises a submission with findings', () => {
    const { session, entry, equipment, run } = SCENARIO_A
    const entries = [{ entry, equipment, runs: [{ ...run, heightGainM: 5000 }] }]
    const there = evaluate(
      `core.normaliseSubmission(${JSON.stringify(session)}, ${JSON.stringify(entries)})`,
    ) as { refusals: { pointer: string }[] }
    expect(there.refusals.map(({ pointer }) => pointer)).toEqual(['/entries/0/runs/0/heightGainM'])
  })
})
