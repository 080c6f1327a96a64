import type { z } from 'zod'

import type { Fault } from '../csv/faults.ts'
import type { FieldPath, NotebookColumn } from './columns.ts'
import type { SessionDraft } from './draft.ts'

type Issue = z.core.$ZodIssue

/** Says in the words of the file what is told in the words of a submission. */
export class Wording {
  readonly #names: ReadonlySet<string>
  readonly #columnOfField = new Map<string, string>()
  readonly #part: string | undefined

  constructor(columns: readonly NotebookColumn[], part?: string) {
    this.#part = part
    this.#names = new Set(columns.map(({ name }) => name))
    for (const { path, name, rare } of columns) {
      const field = path.at(-1)
      if (typeof field !== 'string' || rare || this.#columnOfField.has(field)) continue
      this.#columnOfField.set(field, name)
    }
  }

  /** What a check of the body found, at a path into it. */
  at(draft: SessionDraft, path: FieldPath, detail: string): Fault {
    const { row, column } = draft.placeOf(path)
    return { file: this.#part, row, column: this.#known(column), detail: this.#inColumns(detail) }
  }

  /** The same, at a JSON Pointer (RFC 6901). */
  atPointer(draft: SessionDraft, pointer: string, detail: string): Fault {
    return this.at(draft, pathOf(pointer), detail)
  }

  /** An issue of the schema. */
  ofIssue(draft: SessionDraft, issue: Issue): Fault[] {
    const path = issue.path as FieldPath
    if (issue.code === 'unrecognized_keys') {
      return issue.keys.map((key) =>
        this.at(draft, [...path, key], 'Does not belong to a run of this kind; leave it empty.'),
      )
    }
    if (issue.input === undefined && issue.code !== 'custom') {
      return [this.at(draft, path, neededAs(issue))]
    }
    return [this.at(draft, path, wordsFor(issue))]
  }

  /** A list has no column of its own: that of its first item stands for it. */
  #known(column: string | undefined): string | undefined {
    if (column === undefined || this.#names.has(column)) return column
    const first = [...this.#names].find((name) => name.startsWith(`${column}_`))
    return first ?? 'kind'
  }

  #inColumns(detail: string): string {
    return detail.replace(/\b[a-z]+[A-Z]\w*\b/g, (word) => this.#columnOfField.get(word) ?? word)
  }
}

function neededAs(issue: Issue): string {
  return issue.code === 'invalid_value' ? `Is needed: ${issue.values.join(', ')}.` : 'Is needed.'
}

function wordsFor(issue: Issue): string {
  if (issue.code === 'invalid_value') return `Takes ${issue.values.join(', ')}.`
  return issue.message
}

/** @param pointer RFC 6901; places in lists become numbers */
function pathOf(pointer: string): (string | number)[] {
  return pointer
    .split('/')
    .slice(1)
    .map((part) => (/^\d+$/.test(part) ? Number(part) : part))
}
