/** Called as long work goes on: the share done, from 0 to 1, and what is being done now. */
export type Progress = (share: number, step: string) => Promise<void>

/** For work that nobody follows. */
export const unfollowed: Progress = async () => {}

/** The same progress over a part of the work only, `from` to `to`. */
export function within(progress: Progress, from: number, to: number): Progress {
  return (share, step) => progress(from + (to - from) * share, step)
}
