import { accessSync, constants } from 'node:fs'
import { delimiter, join } from 'node:path'

import { type Browser, chromium } from 'playwright-core'

/** The same browser without its own windows comes first: it takes half the time over a page. */
const NAMES = ['chromium-headless-shell', 'chromium', 'chromium-browser', 'google-chrome']

/** Where a Chromium is: the environment says so, or the PATH; null where there is none. */
export const CHROMIUM = findChromium()

/** For the title of what is skipped without one. */
export const WITHOUT =
  CHROMIUM === null ? ' (skipped: no chromium on the PATH, and CHROMIUM names none)' : ''

const ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

export function openBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: CHROMIUM!, args: ARGUMENTS })
}

function findChromium(): string | null {
  const named = process.env.CHROMIUM
  const folders = (process.env.PATH ?? '').split(delimiter)
  const candidates = [
    ...(named === undefined || named === '' ? [] : [named]),
    ...folders.flatMap((folder) => NAMES.map((name) => join(folder, name))),
  ]
  return candidates.find(isExecutable) ?? null
}

function isExecutable(file: string): boolean {
  try {
    accessSync(file, constants.X_OK)
    return true
  } catch {
    return false
  }
}
