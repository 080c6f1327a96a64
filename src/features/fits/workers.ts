import { Piscina } from 'piscina'

import type { FitBeside, FitTask, FittedModel } from './model.ts'

/**
 * Fits in threads of their own: one for what answers wait for, one for what comes after. They start
 * at the first task; from the TypeScript source (development, tests) they load through tsx.
 */
export class FitWorkers {
  readonly #first = new Thread()
  readonly #second = new Thread()

  fit(task: FitTask): Promise<FittedModel> {
    return this.#first.started().run(task)
  }

  /** The same work behind what answers wait for. */
  readonly behind = {
    fit: (task: FitTask): Promise<FittedModel> => this.#second.started().run(task),
    beside: (task: FitTask): Promise<FitBeside> =>
      this.#second.started().run(task, { name: 'lookBeside' }),
  }

  async close(): Promise<void> {
    await Promise.all([this.#first.close(), this.#second.close()])
  }
}

class Thread {
  #pool: Piscina | null = null

  started(): Piscina {
    const fromSource = import.meta.url.endsWith('.ts')
    this.#pool ??= new Piscina({
      filename: new URL(fromSource ? './worker.ts' : './worker.js', import.meta.url).href,
      minThreads: 1,
      maxThreads: 1,
      ...(fromSource ? { execArgv: ['--import', 'tsx'] } : {}),
    })
    return this.#pool
  }

  async close(): Promise<void> {
    await this.#pool?.destroy()
  }
}
