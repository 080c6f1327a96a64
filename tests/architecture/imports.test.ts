import { dirname, posix } from 'node:path'

import { describe, expect, it } from 'vitest'

import { type SourceFile, sourceFiles, withoutComments } from './source-files.ts'

/** Which rooms of src/ a room may import from, beside itself. The map in DEVELOPERS.md, executable. */
const ALLOWED: Readonly<Record<string, readonly string[]>> = {
  core: [],
  contract: ['core'],
  db: ['contract', 'core'],
  http: ['contract', 'core', 'db'],
  charts: ['core'],
  threads: [],
  features: ['contract', 'core', 'db', 'charts', 'threads'],
  demo: ['contract', 'core', 'db', 'features'],
  web: ['contract', 'core', 'features', 'charts'],
}

/** Run in a browser as well as here, so they import no package. */
const PURE = ['core', 'charts']

/** Wire everything together. */
const OUTSIDE = ['app.ts', 'main.ts', 'service.ts', 'config.ts', 'logging.ts', 'cli']

const IMPORT = /\b(?:from|import)\s*\(?\s*'([^']+)'/g

/** What reads a clock, chance, the machine or the network. */
const IMPURE =
  /\b(?:process|Buffer|console|fetch|performance|setTimeout|setInterval|require)\s*[.(]|\bMath\.random\b|\bDate\b|\bcrypto\b|\bglobalThis\b/

/** What is wrong with the imports of one file, in words. */
function offencesOf({ path, text }: SourceFile): string[] {
  const room = path.split('/')[0]!
  if (OUTSIDE.includes(room)) return []
  const allowed = ALLOWED[room]
  if (allowed === undefined) return [`${path} is in no room of the map`]
  return [...withoutComments(text).matchAll(IMPORT)].flatMap(([, target]) => {
    if (!target!.startsWith('.')) {
      return PURE.includes(room) ? [`${path} imports the package ${target}`] : []
    }
    const to = posix.normalize(posix.join(dirname(path), target!))
    const toRoom = to.split('/')[0]!
    const isOtherFeature =
      room === 'features' && toRoom === 'features' && to.split('/')[1] !== path.split('/')[1]
    const isServerSide = room === 'web' && toRoom === 'features' && !to.endsWith('/schema.ts')
    const isAllowed = toRoom === room || allowed.includes(toRoom)
    return isAllowed && !isOtherFeature && !isServerSide ? [] : [`${path} imports ${to}`]
  })
}

describe('imports', () => {
  it('only point inward, and no feature knows another', () => {
    expect(sourceFiles().flatMap(offencesOf)).toEqual([])
  })

  it.each([
    ['core/a.ts', `import { readFile } from 'node:fs/promises'`],
    ['core/a.ts', `import { x } from '../http/x.ts'`],
    ['core/a.ts', `const x = await import('../db/x.ts')`],
    ['db/a.ts', `import { x } from '../features/fits/service.ts'`],
    ['charts/a.ts', `import { h } from 'preact'`],
    ['contract/a.ts', `export * from '../features/fits/schema.ts'`],
    ['features/fits/a.ts', `import { x } from '../submissions/service.ts'`],
    ['features/fits/a.ts', `import type { X } from '../../http/auth.ts'`],
    ['web/pages/a.tsx', `import { x } from '../../features/fits/service.ts'`],
    ['attic/a.ts', `export const x = 1`],
  ])('of %s such as %s are found out', (path, text) => {
    expect(offencesOf({ path, text })).toHaveLength(1)
  })

  it('lets only main.ts read the environment', () => {
    const readers = sourceFiles().filter(({ text }) =>
      withoutComments(text).includes('process.env'),
    )
    expect(readers.map(({ path }) => path)).toEqual(['main.ts'])
  })
})

describe('the core', () => {
  it('reads neither clock, chance, machine nor network', () => {
    const offences = sourceFiles()
      .filter(({ path }) => path.startsWith('core/'))
      .flatMap(({ path, text }) => {
        const found = IMPURE.exec(withoutComments(text))
        return found === null ? [] : [`${path}: ${found[0]}`]
      })
    expect(offences).toEqual([])
  })
})
