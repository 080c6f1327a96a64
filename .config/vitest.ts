import { availableParallelism } from 'node:os'

import { defineConfig } from 'vitest/config'

const root = new URL('..', import.meta.url).pathname
const inRooms = (...rooms: string[]) => rooms.map((room) => `tests/${room}/**/*.test.ts`)

/** Need neither a database nor a built service, and run on every supported Node. */
const PURE = [
  ...inRooms('core', 'contract', 'charts', 'architecture', 'recovery', 'r'),
  'tests/web/*.test.ts',
]

/** Start the built service as a process of its own. */
const PROCESS = inRooms('main', 'web/browser')

const DATABASE = 'tests/support/global-setup.ts'
const BUILD = 'tests/support/build-setup.ts'
const DEMO_WORLD = 'tests/support/demo-world-setup.ts'
/** A machine that is busy is no fault: these only end what hangs. */
const common = { root, testTimeout: 300_000, hookTimeout: 600_000 }

/** Two at least: tests that wait for a browser or a database leave a core idle. */
const maxWorkers = Math.max(2, availableParallelism() - 1)

/** Files share what they import, which costs more than most of their tests; they leave nothing behind in it. */
const isolate = false

export default defineConfig({
  test: {
    ...common,
    maxWorkers,
    projects: [
      { test: { ...common, name: 'pure', include: PURE, isolate } },
      {
        test: {
          ...common,
          name: 'service',
          isolate,
          include: ['tests/**/*.test.ts'],
          exclude: [...PURE, ...PROCESS],
          globalSetup: DATABASE,
        },
      },
      {
        test: {
          ...common,
          name: 'process',
          include: PROCESS,
          globalSetup: [BUILD, DATABASE, DEMO_WORLD],
        },
      },
    ],
  },
})
