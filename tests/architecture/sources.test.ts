import ts from 'typescript'
import { describe, expect, it } from 'vitest'

import { type SourceFile, sourceFiles } from './source-files.ts'

/** Exported functions of a file that do not say where their formula is from. */
function withoutSource({ path, text }: SourceFile): string[] {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true)
  return file.statements
    .filter((statement) => isExported(statement))
    .flatMap((statement) => {
      const names = functionNames(statement)
      const hasSource = ts.getJSDocTags(statement).some((tag) => tag.tagName.text === 'source')
      return hasSource ? [] : names.map((name) => `${path}: ${name}`)
    })
}

function isExported(statement: ts.Statement): boolean {
  const modifiers = ts.canHaveModifiers(statement) ? ts.getModifiers(statement) : undefined
  return modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword) ?? false
}

function functionNames(statement: ts.Statement): string[] {
  if (ts.isFunctionDeclaration(statement)) return [statement.name?.text ?? 'default']
  if (!ts.isVariableStatement(statement)) return []
  return statement.declarationList.declarations
    .filter(
      ({ initializer }) =>
        initializer && (ts.isArrowFunction(initializer) || ts.isFunctionExpression(initializer)),
    )
    .map(({ name }) => name.getText())
}

describe('every exported function of the core', () => {
  it('names its source', () => {
    const core = sourceFiles().filter(({ path }) => path.startsWith('core/'))
    expect(core.length).toBeGreaterThan(0)
    expect(core.flatMap(withoutSource)).toEqual([])
  })

  it.each([
    ['function', 'export function f(): void {}', ['a.ts: f']],
    ['arrow function', 'export const f = () => 1', ['a.ts: f']],
    ['function that names one', '/** Text.\n * @source ISO 2533 */\nexport function f() {}', []],
    ['value', 'export const x = 1', []],
  ])('is looked at by this test: a %s', (_what, text, offences) => {
    expect(withoutSource({ path: 'a.ts', text })).toEqual(offences)
  })
})
