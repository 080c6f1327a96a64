import { Thread } from '../../threads/thread.ts'
import type { FitBeside, FitTask, FittedModel } from './model.ts'

/** The scheduler prefers what answers wait for by so many steps. */
const BEHIND = 10

/** Fits in threads of their own: one for what answers wait for, one for what comes after. */
export class FitWorkers {
  readonly #first = new Thread(import.meta.url, 'worker')
  readonly #second = new Thread(import.meta.url, 'worker', BEHIND)

  fit(task: FitTask): Promise<FittedModel> {
    return this.#first.run(task)
  }

  /** The same work behind what answers wait for. */
  readonly behind = {
    fit: (task: FitTask): Promise<FittedModel> => this.#second.run(task),
    beside: (task: FitTask): Promise<FitBeside> =>
      this.#second.run(task, { exported: 'lookBeside' }),
    robust: (task: FitTask): Promise<FittedModel | null> =>
      this.#second.run(task, { exported: 'fitRobustly' }),
  }

  async close(): Promise<void> {
    await Promise.all([this.#first.close(), this.#second.close()])
  }
}
