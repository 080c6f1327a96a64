// Makes dist/ from src/. Run by npm after an install (postinstall), before a start when something
// changed (prestart, --if-stale), and by `npm run build`. Needs none of the devDependencies: types
// are checked by `npm run check`, here they are only taken off.
import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import {
  copyFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { dirname, extname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { brotliCompressSync } from 'node:zlib'
import { hydratePostgres } from './hydrate-postgres.mjs'

const ROOT = fileURLToPath(new URL('..', import.meta.url))
const DIST = join(ROOT, 'dist')
const GENERATED = join(ROOT, 'src/db/generated')

/** What dist/ was made from stands here. */
const STAMP = join(DIST, '.built-from')
const CLIENT_STAMP = join(GENERATED, '.generated-from')

const files = listSources()
/** The front end has a build of its own. */
const sources = files.filter((file) => !isOfThePages(file))
const own = ['tsconfig.json', 'package-lock.json', '.config/build.mjs']
const fingerprint = hashOf([...own, 'prisma/schema.prisma', '.config/vite.ts', ...files])
/** The pages run the core and draw the charts, so they are made anew with them. */
const pagesFingerprint = hashOf([
  ...own,
  '.config/vite.ts',
  ...files.filter(
    (file) => isOfThePages(file) || /^src[\\/](core|charts|contract)[\\/]/.test(file),
  ),
])
const isFresh = readOr(STAMP, '') === fingerprint && existsSync(join(GENERATED, 'client.ts'))

hydratePostgres()
if (!process.argv.includes('--if-stale') || !isFresh) {
  generateClient()
  await build()
}

function isOfThePages(file) {
  return /^src[\\/]web[\\/]/.test(file)
}

function listSources() {
  return readdirSync(join(ROOT, 'src'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name).slice(ROOT.length))
    .filter((file) => !/^src[\\/]db[\\/]generated[\\/]/.test(file))
    .sort()
}

function hashOf(files) {
  const hash = createHash('sha256')
  for (const file of files)
    hash
      .update(file)
      .update('\0')
      .update(readOr(join(ROOT, file), ''))
  return hash.digest('hex')
}

/** The Prisma client, into src/db/generated. */
function generateClient() {
  const wanted = hashOf(['prisma/schema.prisma', '.config/prisma.ts', 'package-lock.json'])
  if (readOr(CLIENT_STAMP, '') === wanted) return
  execFileSync(process.execPath, [join(ROOT, 'node_modules/prisma/build/index.js'), 'generate'], {
    cwd: ROOT,
    stdio: ['ignore', 'pipe', 'inherit'],
    env: {
      ...process.env,
      // The generator does without the native engine; named, it is not fetched from elsewhere.
      PRISMA_SCHEMA_ENGINE_BINARY: '/bin/false',
      CHECKPOINT_DISABLE: '1',
      PRISMA_HIDE_UPDATE_MESSAGE: '1',
    },
  })
  writeFileSync(CLIENT_STAMP, wanted)
}

/** Into a folder beside dist/ first: a build that fails leaves the old one in place. */
async function build() {
  const { default: ts } = await import('typescript')
  const { options } = ts.parseJsonConfigFileContent(
    ts.readConfigFile(join(ROOT, 'tsconfig.json'), ts.sys.readFile).config,
    ts.sys,
    ROOT,
  )
  const draft = join(ROOT, `dist.new-${process.pid}`)
  try {
    const generated = readdirSync(GENERATED, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts'))
      .map((file) => join('src/db/generated', file))
    for (const file of [...sources, ...generated]) emit(ts, options, file, draft)
    await buildPages(join(draft, 'web'))
    writeFileSync(join(draft, '.built-from'), fingerprint)
    rmSync(DIST, { recursive: true, force: true })
    renameSync(draft, DIST)
  } finally {
    rmSync(draft, { recursive: true, force: true })
  }
}

/** The pages and, beside each file worth it, its compressed twin; or those of before, if nothing changed. */
async function buildPages(target) {
  const stamp = join(target, '.built-from')
  if (readOr(join(DIST, 'web', '.built-from'), '') === pagesFingerprint) {
    cpSync(join(DIST, 'web'), target, { recursive: true })
    return
  }
  const { build: bundle, loadConfigFromFile } = await import('vite')
  const env = { command: 'build', mode: 'production' }
  const { config } = await loadConfigFromFile(env, join(ROOT, '.config/vite.ts'))
  await bundle({ ...config, configFile: false, build: { ...config.build, outDir: target } })
  for (const name of readdirSync(target, { recursive: true, encoding: 'utf8' })) {
    if (!/\.(js|css|svg|webmanifest)$/.test(name)) continue
    writeFileSync(join(target, `${name}.br`), brotliCompressSync(readFileSync(join(target, name))))
  }
  writeFileSync(stamp, pagesFingerprint)
}

function emit(ts, options, file, draft) {
  const target = join(draft, file.slice('src/'.length))
  mkdirSync(dirname(target), { recursive: true })
  if (extname(file) !== '.ts') {
    if (extname(file) !== '.md') copyFileSync(join(ROOT, file), target)
    return
  }
  const text = readFileSync(join(ROOT, file), 'utf8')
  const { outputText, diagnostics } = ts.transpileModule(text, {
    // File by file, the compiler cannot see that package.json says "module".
    compilerOptions: {
      ...options,
      module: ts.ModuleKind.ESNext,
      moduleResolution: ts.ModuleResolutionKind.Bundler,
      incremental: false,
    },
    fileName: join(ROOT, file),
    reportDiagnostics: true,
  })
  const fault = diagnostics?.[0]
  if (fault !== undefined) {
    throw new Error(`${file}: ${ts.flattenDiagnosticMessageText(fault.messageText, '\n')}`)
  }
  writeFileSync(target.replace(/\.ts$/, '.js'), outputText)
}

function readOr(file, fallback) {
  try {
    return readFileSync(file, 'utf8')
  } catch {
    return fallback
  }
}
