import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'

import { defineConfig, type Plugin } from 'vite'

const root = new URL('../src/web/', import.meta.url).pathname
const SERVICE_WORKER = 'service-worker'

/** The pages, into dist/web. Run by .config/build.mjs, which decides when. */
export default defineConfig({
  root,
  logLevel: 'warn',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: new URL('../dist/web', import.meta.url).pathname,
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0, // the content security policy takes nothing inline
    modulePreload: { polyfill: false },
    rolldownOptions: {
      input: { main: `${root}index.html`, [SERVICE_WORKER]: `${root}service-worker.ts` },
      output: {
        entryFileNames: ({ name }) =>
          name === SERVICE_WORKER ? '[name].js' : 'assets/[name]-[hash].js',
      },
    },
  },
  plugins: [listForOffline()],
})

/** Files that are shipped as they are. */
function publicTexts(): string[] {
  const folder = `${root}public/`
  return readdirSync(folder).map((name) => name + readFileSync(folder + name, 'base64'))
}

/** Tells the service worker which files there are, and a version that changes with any of them. */
function listForOffline(): Plugin {
  return {
    name: 'list-for-offline',
    enforce: 'post',
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        const worker = bundle[`${SERVICE_WORKER}.js`]
        if (worker?.type !== 'chunk') return
        const files = Object.keys(bundle).filter((name) => name.startsWith('assets/'))
        const text = Object.values(bundle).map((file) =>
          file.type === 'chunk' ? file.code : String(file.source),
        )
        const version = createHash('sha256')
          .update([...text, ...publicTexts()].join())
          .digest('hex')
          .slice(0, 16)
        worker.code = worker.code
          .replace('__VERSION__', version)
          .replace('__FILES__', files.map((name) => `/${name}`).join(' '))
      },
    },
  }
}
