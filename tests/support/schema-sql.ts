import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { PrismaPg } from '@prisma/adapter-pg'
import { bindMigrationAwareSqlAdapterFactory } from '@prisma/driver-adapter-utils'

/** The part of WebAssembly used here; the types of Node 20 leave it out. */
interface WebAssemblyNamespace {
  instantiate(
    bytes: Uint8Array,
    imports: Readonly<Record<string, unknown>>,
  ): Promise<{ readonly instance: { readonly exports: Readonly<Record<string, unknown>> } }>
}

const { instantiate } = (globalThis as unknown as { WebAssembly: WebAssemblyNamespace }).WebAssembly
const ENGINE = new URL('./', import.meta.resolve('@prisma/schema-engine-wasm'))
const SCHEMA = new URL('../../prisma/schema.prisma', import.meta.url)

/**
 * The SQL that creates prisma/schema.prisma in an empty PostgreSQL database, as the schema
 * engine writes it. Only ever asked for the difference from nothing: diffing migrations
 * through the adapter would run them in the database that the adapter points to.
 */
export async function schemaSql(connectionString: string): Promise<string> {
  const bindings = await import(new URL('schema_engine_bg.js', ENGINE).href)
  const wasm = await instantiate(await readFile(new URL('schema_engine_bg.wasm', ENGINE)), {
    './schema_engine_bg.js': bindings,
  })
  bindings.__wbg_set_wasm(wasm.instance.exports)
  ;(wasm.instance.exports.__wbindgen_start as () => void)()
  const engine = await bindings.SchemaEngine.new(
    { datamodels: undefined },
    () => {},
    bindMigrationAwareSqlAdapterFactory(new PrismaPg({ connectionString })),
  )
  const path = fileURLToPath(SCHEMA)
  const content = await readFile(SCHEMA, 'utf8')
  const { stdout } = await engine.diff({
    from: { tag: 'empty' },
    to: { tag: 'schemaDatamodel', files: [{ path, content }], configDir: '.' },
    script: true,
    exitCode: null,
    shadowDatabaseUrl: null,
    filters: { externalTables: [], externalEnums: [] },
  })
  return stdout as string
}
