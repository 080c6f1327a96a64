import { move, Piscina, transferableSymbol, valueSymbol } from 'piscina'

export interface RunOptions {
  readonly exported?: string
  /** Goes over to the thread instead of a copy, and is gone here. */
  readonly memory?: readonly ArrayBuffer[]
}

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
  run<Result>(task: unknown, { exported, memory = [] }: RunOptions = {}): Promise<Result> {
    const name = exported === undefined ? {} : { name: exported }
    return this.#started().run(task, { ...name, transferList: [...memory] })
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
