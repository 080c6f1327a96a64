// Makes dist/ from src/. Run by npm after an install (postinstall), before a start when something
// changed (prestart, --if-stale), and by `npm run build`. Needs none of the devDependencies: types
// are checked by `npm run check`, here they are only taken off.
import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import {
  copyFileSync,
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
import { hydratePostgres } from './hydrate-postgres.mjs'

const ROOT = fileURLToPath(new URL('..', import.meta.url))
const DIST = join(ROOT, 'dist')
const GENERATED = join(ROOT, 'src/db/generated')

/** What dist/ was made from stands here. */
const STAMP = join(DIST, '.built-from')
const CLIENT_STAMP = join(GENERATED, '.generated-from')

const sources = listSources()
const fingerprint = hashOf([
  'tsconfig.json',
  'package-lock.json',
  'prisma/schema.prisma',
  '.config/build.mjs',
  ...sources,
])
const isFresh = readOr(STAMP, '') === fingerprint && existsSync(join(GENERATED, 'client.ts'))

hydratePostgres()
if (!process.argv.includes('--if-stale') || !isFresh) {
  generateClient()
  await build()
}

/** The front end (src/web) has a build of its own. */
function listSources() {
  return readdirSync(join(ROOT, 'src'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name).slice(ROOT.length))
    .filter((file) => !/^src[\\/](web|db[\\/]generated)[\\/]/.test(file))
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
    writeFileSync(join(draft, '.built-from'), fingerprint)
    rmSync(DIST, { recursive: true, force: true })
    renameSync(draft, DIST)
  } finally {
    rmSync(draft, { recursive: true, force: true })
  }
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
