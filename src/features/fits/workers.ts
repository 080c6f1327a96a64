import { Piscina } from 'piscina'

import type { FitBeside, FitTask, FittedModel } from './model.ts'

/**
 * Fits in threads of their own: one for what answers wait for, one for what comes after. They start
 * at the first task; from the TypeScript source (development, tests) they load through tsx.
 */
export class FitWorkers {
  readonly #first = new Thread(0)
  readonly #second = new Thread(BEHIND)

  fit(task: FitTask): Promise<FittedModel> {
    return this.#first.started().run(task)
  }

  /** The same work behind what answers wait for. */
  readonly behind = {
    fit: (task: FitTask): Promise<FittedModel> => this.#second.started().run(task),
    beside: (task: FitTask): Promise<FitBeside> =>
      this.#second.started().run(task, { name: 'lookBeside' }),
    robust: (task: FitTask): Promise<FittedModel | null> =>
      this.#second.started().run(task, { name: 'fitRobustly' }),
  }

  async close(): Promise<void> {
    await Promise.all([this.#first.close(), this.#second.close()])
  }
}

/** Steps by which the scheduler prefers what answers wait for; where it cannot be told so, both are alike. */
const BEHIND = 10

class Thread {
  readonly #nice: number
  #pool: Piscina | null = null

  constructor(nice: number) {
    this.#nice = nice
  }

  started(): Piscina {
    const fromSource = import.meta.url.endsWith('.ts')
    this.#pool ??= new Piscina({
      filename: new URL(fromSource ? './worker.ts' : './worker.js', import.meta.url).href,
      minThreads: 1,
      maxThreads: 1,
      niceIncrement: this.#nice,
      ...(fromSource ? { execArgv: ['--import', 'tsx'] } : {}),
    })
    return this.#pool
  }

  async close(): Promise<void> {
    await this.#pool?.destroy()
  }
}
