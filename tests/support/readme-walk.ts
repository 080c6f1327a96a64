import { execFile } from 'node:child_process'
import { readFile, writeFile } from 'node:fs/promises'
import { promisify } from 'node:util'

const README = new URL('../../README.md', import.meta.url)
/** A command block with the block of its output right below. */
const STEP = /```sh\n((?:(?!```)[\s\S])*)```\n```text\n((?:(?!```)[\s\S])*)```/g

/** One step of the README's walk: its commands, the output it shows, and what came when it was run. */
export interface WalkStep {
  readonly commands: string
  readonly shown: string
  readonly printed: string
}

/** Runs the README's walk against a service, all steps in one shell, as a reader would. */
export async function walkReadme(baseUrl: string): Promise<WalkStep[]> {
  const text = await readFile(README, 'utf8')
  const steps = [...text.matchAll(STEP)].map(([, commands, shown]) => ({
    commands: commands!,
    shown: shown!,
  }))
  const mark = (index: number) => `end of step ${index}`
  const script = steps.map(({ commands }, i) => `${commands}\necho '${mark(i)}'`).join('\n')
  const { stdout } = await promisify(execFile)('bash', ['-euc', script], {
    env: { ...process.env, BASE: baseUrl },
  })
  let rest = stdout
  return steps.map((step, i) => {
    const [printed, ...later] = rest.split(`${mark(i)}\n`)
    rest = later.join('')
    return { ...step, printed: printed! }
  })
}

/** Puts what was printed into the README, in place of what it showed. */
export async function rewriteReadme(steps: readonly WalkStep[]): Promise<void> {
  let index = 0
  const text = (await readFile(README, 'utf8')).replace(STEP, (_whole, commands) => {
    const step = steps[index++]!
    return `\`\`\`sh\n${commands}\`\`\`\n\`\`\`text\n${step.printed}\`\`\``
  })
  await writeFile(README, text)
}

/** Whether this machine has what the walk is written with. */
export async function canWalk(): Promise<boolean> {
  const asked = promisify(execFile)('bash', ['-c', 'curl --help all | grep -q -- --json'])
  return asked.then(
    () => true,
    () => false,
  )
}
