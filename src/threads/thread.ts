import { move, Piscina, transferableSymbol, valueSymbol } from 'piscina'

/**
 * The functions of one module in a thread of their own, one task after the other. It starts at the first task; from
 * the TypeScript source (development, tests) it loads through tsx.
 */
export class Thread {
  readonly #filename: string
  readonly #niceness: number
  #pool: Piscina | null = null

  /**
   * @param importer `import.meta.url` of the module that asks
   * @param name of the module beside it, without its ending
   * @param niceness steps by which the scheduler prefers other threads, where it can be told so
   */
  constructor(importer: string, name: string, niceness = 0) {
    const ending = importer.endsWith('.ts') ? 'ts' : 'js'
    this.#filename = new URL(`./${name}.${ending}`, importer).href
    this.#niceness = niceness
  }

  /** Runs the default export, or the one that is named; arguments and result are copied, shared memory is shared. */
  run<Result>(task: unknown, exported?: string): Promise<Result> {
    return this.#started().run(task, exported === undefined ? {} : { name: exported })
  }

  /** Runs the default export; the memory named goes over to the thread, and is gone here. */
  runWith<Result>(task: unknown, memory: readonly ArrayBuffer[]): Promise<Result> {
    return this.#started().run(task, { transferList: [...memory] })
  }

  async close(): Promise<void> {
    await this.#pool?.destroy()
  }

  #started(): Piscina {
    this.#pool ??= new Piscina({
      filename: this.#filename,
      minThreads: 1,
      maxThreads: 1,
      niceIncrement: this.#niceness,
      ...(this.#filename.endsWith('.ts') ? { execArgv: ['--import', 'tsx'] } : {}),
    })
    return this.#pool
  }
}

/** What a thread returns so that the memory named goes back with it instead of a copy. */
export function handOver(value: object, memory: readonly ArrayBuffer[]): unknown {
  return move({ [transferableSymbol]: memory, [valueSymbol]: value })
}
