/**
 * Disjoint sets of the items 0 … size − 1.
 *
 * @source R. E. Tarjan, J. ACM 22, 1975, 215-225 (union by size, path halving; from memory)
 */
export class UnionFind {
  private readonly parent: Int32Array
  private readonly size: Int32Array
  private sets: number

  constructor(size: number) {
    this.parent = Int32Array.from({ length: size }, (_, item) => item)
    this.size = new Int32Array(size).fill(1)
    this.sets = size
  }

  /** Number of sets. */
  get setCount(): number {
    return this.sets
  }

  /** Representative of an item's set; stable between unions only. */
  find(item: number): number {
    let root = item
    while (this.parent[root] !== root) {
      this.parent[root] = this.parent[this.parent[root]!]!
      root = this.parent[root]!
    }
    return root
  }

  union(a: number, b: number): void {
    let big = this.find(a)
    let small = this.find(b)
    if (big === small) return
    if (this.size[big]! < this.size[small]!) [big, small] = [small, big]
    this.parent[small] = big
    this.size[big]! += this.size[small]!
    this.sets--
  }

  /** Sets of the first `count` items, numbered by their smallest member. */
  labels(count: number): Int32Array {
    const labelOfRoot = new Map<number, number>()
    return Int32Array.from({ length: count }, (_, item) => {
      const root = this.find(item)
      const label = labelOfRoot.get(root) ?? labelOfRoot.size
      labelOfRoot.set(root, label)
      return label
    })
  }
}
