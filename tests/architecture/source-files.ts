import { readdirSync, readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'

export const ROOT = resolve(import.meta.dirname, '../..')
export const SRC = join(ROOT, 'src')

export interface SourceFile {
  /** Below src/, with forward slashes. */
  readonly path: string
  readonly text: string
}

/** Every TypeScript file of src/, without what is generated. */
export function sourceFiles(): SourceFile[] {
  return readdirSync(SRC, { recursive: true, encoding: 'utf8' })
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => /\.tsx?$/.test(path) && !path.startsWith('db/generated/'))
    .sort()
    .map((path) => ({ path, text: readFileSync(join(SRC, path), 'utf8') }))
}

/** The code without its comments, strings kept. */
export function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '$1')
}
