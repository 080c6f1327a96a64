import type { Groups } from './groups.ts'
import { UnionFind } from './union-find.ts'

/** Edges of the bipartite graph of setups (0 … K − 1) and sessions (K … K + S − 1). */
interface Graph {
  readonly vertexCount: number
  /** First neighbour of each vertex, vertexCount + 1 entries. */
  readonly start: Int32Array
  readonly neighbours: Int32Array
}

/**
 * Groups of setups whose links do not rest on one session.
 *
 * Two setups belong together if they stay connected whichever single session is taken away. In
 * the bipartite graph of setups and sessions that is so exactly if they are joined by a chain of
 * blocks (biconnected components) that meet in setups; a block of one edge joins nothing. This is
 * an equivalence: if a-b and b-c survive the loss of a session, so does a-c.
 *
 * @param groups the design
 * @returns group number of each setup, numbered by the smallest setup in it, O(K + S + cells)
 * @source J. Hopcroft, R. Tarjan, Comm. ACM 16, 1973, 372-378 (blocks by depth-first search, here
 *   without recursion; from memory); grouping derived here
 */
export function soleSessionFreeLabels(groups: Groups): Int32Array {
  const graph = bipartiteGraph(groups)
  const joined = new UnionFind(groups.setupCount)
  forEachBlock(graph, (block) => {
    const setups = block.filter((vertex) => vertex < groups.setupCount)
    for (const setup of setups) joined.union(setups[0]!, setup)
  })
  return joined.labels(groups.setupCount)
}

function bipartiteGraph(groups: Groups): Graph {
  const { setupCount: K, sessionCount, cellCount, sessionStart, cellSetup } = groups
  const vertexCount = K + sessionCount
  const start = new Int32Array(vertexCount + 1)
  for (let c = 0; c < cellCount; c++) start[cellSetup[c]! + 1]!++
  for (let s = 0; s < sessionCount; s++) start[K + s + 1] = sessionStart[s + 1]! - sessionStart[s]!
  for (let v = 0; v < vertexCount; v++) start[v + 1]! += start[v]!
  const next = start.slice()
  const neighbours = new Int32Array(2 * cellCount)
  for (let s = 0; s < sessionCount; s++) {
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
      neighbours[next[cellSetup[c]!]!++] = K + s
      neighbours[next[K + s]!++] = cellSetup[c]!
    }
  }
  return { vertexCount, start, neighbours }
}

/** Depth-first numbering of the graph as it grows. */
interface Numbering {
  /** Order of discovery, 0 for a vertex not yet seen. */
  readonly found: Int32Array
  /** Earliest vertex reachable through the subtree and one further edge. */
  readonly low: Int32Array
  readonly parent: Int32Array
  /** Next neighbour to look at. */
  readonly next: Int32Array
  count: number
}

/** Calls `visit` with the vertices of each block that has an edge; no recursion. */
function forEachBlock(graph: Graph, visit: (block: number[]) => void): void {
  const n = graph.vertexCount
  const numbering: Numbering = {
    found: new Int32Array(n),
    low: new Int32Array(n),
    parent: new Int32Array(n).fill(-1),
    next: graph.start.slice(0, n),
    count: 0,
  }
  for (let root = 0; root < n; root++) {
    if (numbering.found[root] === 0) walk(graph, numbering, { root, visit })
  }
}

function walk(
  graph: Graph,
  numbering: Numbering,
  { root, visit }: { root: number; visit: (block: number[]) => void },
): void {
  const { found, low, parent, next } = numbering
  const open: number[] = [] // vertices not yet in a finished block
  const discover = (vertex: number) => {
    found[vertex] = low[vertex] = ++numbering.count
    open.push(vertex)
  }
  discover(root)
  let vertex = root
  while (vertex !== -1) {
    if (next[vertex]! < graph.start[vertex + 1]!) {
      const neighbour = graph.neighbours[next[vertex]!++]!
      if (found[neighbour] === 0) {
        parent[neighbour] = vertex
        discover(neighbour)
        vertex = neighbour
      } else if (neighbour !== parent[vertex]) {
        low[vertex] = Math.min(low[vertex]!, found[neighbour]!)
      }
      continue
    }
    const up = parent[vertex]!
    if (up !== -1) {
      low[up] = Math.min(low[up]!, low[vertex]!)
      // Nothing below `vertex` reaches above `up`: the subtree and `up` form a block.
      if (low[vertex]! >= found[up]!) visit([up, ...open.splice(open.lastIndexOf(vertex))])
    }
    vertex = up
  }
}
