/** Work that is done one time after the other, each time for all who asked before it began. */
export class Turns {
  readonly #work: () => Promise<void>
  #last: Promise<void> = Promise.resolve()
  /** Not begun yet. */
  #next: Promise<void> | null = null

  constructor(work: () => Promise<void>) {
    this.#work = work
  }

  /** Resolves when the work was done once that began after this call; rejects as it does. */
  take(): Promise<void> {
    this.#next ??= this.#after(this.#last)
    return this.#next
  }

  /** Resolves when nobody waits any more. */
  async settled(): Promise<void> {
    await this.#last.catch(() => {}) // told to who waited for it
  }

  #after(before: Promise<void>): Promise<void> {
    const begin = () => {
      this.#next = null
      return this.#work()
    }
    this.#last = before.then(begin, begin)
    return this.#last
  }
}
