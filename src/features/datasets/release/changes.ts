import type { Release, ReleaseSummary } from './repository.ts'

type Content = Omit<ReleaseSummary, 'changes'>

/** What differs from the release before, in sentences. */
export function changesSince(before: Release | null, now: Content): string[] {
  if (before === null) return ['First release.']
  const { summary, id } = before
  const changes = [
    counted('runs', summary.anonymity.runs, now.anonymity.runs),
    counted('sessions', summary.anonymity.sessions, now.anonymity.sessions),
    counted('pilots', summary.anonymity.pilots, now.anonymity.pilots),
    counted('setups', summary.setups, now.setups),
    version('method', summary.methodVersion, now.methodVersion),
    version('model', summary.modelVersion, now.modelVersion),
    ...now.fits
      .filter(({ metric }) => !summary.fits.some((fit) => fit.metric === metric))
      .map(({ metric }) => `New metric: ${metric}.`),
  ].filter((change) => change !== null)
  return changes.length > 0
    ? [`Since release ${id}:`, ...changes]
    : [`Corrections of what release ${id} held; as many runs, sessions, pilots and setups.`]
}

function counted(what: string, before: number, now: number): string | null {
  if (before === now) return null
  return `${now} ${what} (${now > before ? '+' : '−'}${Math.abs(now - before)}).`
}

function version(what: string, before: string, now: string): string | null {
  return before === now ? null : `Version of the ${what}: ${now} (was ${before}).`
}
