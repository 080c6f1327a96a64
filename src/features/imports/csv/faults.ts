import { ApiProblem, type FieldError } from '../../../contract/problems.ts'

/** What is wrong at a place of a file. */
export interface Fault {
  /** Part of the request, where it has several. */
  readonly file?: string | undefined
  /** The header is row 1; absent: the whole file. */
  readonly row?: number | undefined
  readonly column?: string | undefined
  readonly detail: string
}

/** More are counted, not listed: nobody reads them, and an answer has its limits. */
const LISTED = 1000

/** The problem that tells every fault of a request, in the order of file and row. */
export function faultyFile(faults: readonly Fault[]): ApiProblem {
  const inOrder = [...faults].sort((a, b) => (a.row ?? 0) - (b.row ?? 0))
  const count = faults.length === 1 ? 'One fault' : `${faults.length} faults`
  const listed = faults.length > LISTED ? `; the first ${LISTED} are listed` : ''
  return new ApiProblem('faulty-file', {
    detail: `${count}${listed}. Nothing was imported.`,
    errors: inOrder.slice(0, LISTED).map(toError),
  })
}

/** Throws where there are faults. */
export function refuseFaults(faults: readonly Fault[]): void {
  if (faults.length > 0) throw faultyFile(faults)
}

function toError({ file, row, column, detail }: Fault): FieldError {
  const place = [file, row, column].filter((part) => part !== undefined)
  const pointer = place.map((part) => `/${escaped(String(part))}`).join('')
  return {
    pointer,
    detail,
    ...(file === undefined ? {} : { file }),
    ...(row === undefined ? {} : { row }),
    ...(column === undefined ? {} : { column }),
  }
}

/** A part of a JSON Pointer (RFC 6901, 3). */
function escaped(part: string): string {
  return part.replaceAll('~', '~0').replaceAll('/', '~1')
}
