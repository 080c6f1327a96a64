import ts from 'typescript'

const FOLDER = new URL('.', import.meta.url).pathname

const OPTIONS: ts.CompilerOptions = {
  noEmit: true,
  strict: true,
  skipLibCheck: true,
  types: [],
  target: ts.ScriptTarget.ES2022,
  module: ts.ModuleKind.ESNext,
  moduleResolution: ts.ModuleResolutionKind.Bundler,
}

/**
 * What in JSON-LD documents about data sets is not in the vocabulary of schema.org, in words of the
 * compiler, for each of them: a document is checked as a literal of the published types of that
 * vocabulary, which know every property of a Dataset, of its files and of its makers.
 */
export function schemaOrgFaults(documents: readonly unknown[]): string[][] {
  const sources = new Map(
    documents.map((document, index) => [
      `${FOLDER}checked-${index}.ts`,
      `import type { Dataset, WithContext } from 'schema-dts'
export const checked: WithContext<Dataset> = ${JSON.stringify(document)}`,
    ]),
  )
  const host = ts.createCompilerHost(OPTIONS)
  const read = host.getSourceFile.bind(host)
  host.getSourceFile = (name, languageVersion, ...rest) => {
    const source = sources.get(name)
    return source === undefined
      ? read(name, languageVersion, ...rest)
      : ts.createSourceFile(name, source, languageVersion)
  }
  const program = ts.createProgram([...sources.keys()], OPTIONS, host)
  const found = ts.getPreEmitDiagnostics(program)
  return [...sources.keys()].map((name) =>
    found
      .filter(({ file }) => file?.fileName === name)
      .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, ' ')),
  )
}
