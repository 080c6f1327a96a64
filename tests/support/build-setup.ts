import { execFileSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'

/** The service as it is shipped: dist/ from the sources of now. */
export default function setup(): void {
  const script = fileURLToPath(new URL('../../.config/build.mjs', import.meta.url))
  execFileSync(process.execPath, [script, '--if-stale'], { stdio: 'pipe' })
}
