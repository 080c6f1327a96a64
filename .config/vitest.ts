import { defineConfig } from 'vitest/config'

/** Pure: they need neither a database nor a built service, and run on every supported Node. */
const PURE = ['core', 'contract', 'architecture', 'recovery'].map(
  (room) => `tests/${room}/**/*.test.ts`,
)

const test = {
  root: new URL('..', import.meta.url).pathname,
  testTimeout: 30_000,
  hookTimeout: 60_000,
}

export default defineConfig({
  test: {
    ...test,
    projects: [
      { test: { ...test, name: 'pure', include: PURE } },
      {
        test: {
          ...test,
          name: 'service',
          include: ['tests/**/*.test.ts'],
          exclude: PURE,
          globalSetup: 'tests/support/global-setup.ts',
        },
      },
    ],
  },
})
