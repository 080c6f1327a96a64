import { mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

import ts from 'typescript'

const DIST = fileURLToPath(new URL('../../dist/', import.meta.url))

/**
 * Scripts of this folder as JavaScript that runs on the built service: what reads TypeScript in a
 * process and its threads takes memory that nobody who starts the service pays for.
 *
 * @param names without their ending; imports lead to each other or into src
 * @returns the folder they are in
 */
export async function builtScripts(names: readonly string[]): Promise<string> {
  const folder = await mkdtemp(join(DIST, 'bench-'))
  for (const name of names) {
    const source = await readFile(new URL(`${name}.ts`, import.meta.url), 'utf8')
    const { outputText } = ts.transpileModule(source, {
      compilerOptions: { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2023 },
    })
    const built = outputText
      .replaceAll(/'\.\.\/\.\.\/src\/(.+)\.ts'/g, `'../$1.js'`)
      .replaceAll(/'\.\/(.+)\.ts'/g, `'./$1.js'`)
    await writeFile(join(folder, `${name}.js`), built)
  }
  return folder
}
