import { readFileSync } from 'node:fs'
import { join } from 'node:path'

import { expect, it } from 'vitest'

import { ENVIRONMENT_NAMES } from '../../src/config.ts'
import { ROOT } from './source-files.ts'

it('.env.example lists every variable the service reads, and no other', () => {
  const text = readFileSync(join(ROOT, '.env.example'), 'utf8')
  const listed = [...text.matchAll(/^#? ?([A-Z][A-Z_]+)=/gm)].map(([, name]) => name)
  expect(listed.sort()).toEqual([...ENVIRONMENT_NAMES].sort())
})

it('README.md has every variable in its table, and no other', () => {
  const text = readFileSync(join(ROOT, 'README.md'), 'utf8')
  const rows = [...text.matchAll(/^\| (`[A-Z_`, ]+`) \|/gm)].map(([, names]) => names!)
  const listed = rows.flatMap((names) =>
    [...names.matchAll(/`([A-Z_]+)`/g)].map(([, name]) => name),
  )
  expect(listed.sort()).toEqual([...ENVIRONMENT_NAMES].sort())
})
