import { Piscina } from 'piscina'

import type { FitBeside, FitTask, FittedModel } from './model.ts'

/**
 * Fits in threads of their own: one for what answers wait for, one for what comes after. They start
 * at the first task; from the TypeScript source (development, tests) they load through tsx.
 */
export class FitWorkers {
  #pool: Piscina | null = null

  fit(task: FitTask): Promise<FittedModel> {
    return this.#started().run(task)
  }

  beside(task: FitTask): Promise<FitBeside> {
    return this.#started().run(task, { name: 'lookBeside' })
  }

  async close(): Promise<void> {
    await this.#pool?.destroy()
  }

  #started(): Piscina {
    const fromSource = import.meta.url.endsWith('.ts')
    this.#pool ??= new Piscina({
      filename: new URL(fromSource ? './worker.ts' : './worker.js', import.meta.url).href,
      minThreads: 1,
      maxThreads: 2,
      idleTimeout: 60_000,
      ...(fromSource ? { execArgv: ['--import', 'tsx'] } : {}),
    })
    return this.#pool
  }
}
