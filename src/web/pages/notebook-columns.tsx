import { useAnswer } from '../api/use-answer.ts'
import { AnswerState } from '../components/notices.tsx'
import { Table } from '../components/table.tsx'
import { NotebookUpload } from './notebook-upload.tsx'

/** How an old notebook comes in: a blank one to fill, and what its columns mean. */
export function NotebookColumns() {
  return (
    <section>
      <h2>Bring your notebook</h2>
      <p>
        A spreadsheet with one row per run, saved as CSV, becomes submissions of your account: all
        of it, or nothing and a list of what is wrong by row and column. Programs send it to{' '}
        <a href="/docs">POST /v1/imports</a>. A blank one:{' '}
        <a href="/v1/imports/template.csv" download>
          with commas
        </a>{' '}
        or{' '}
        <a href="/v1/imports/template.csv?delimiter=semicolon" download>
          with semicolons and a decimal comma
        </a>
        .
      </p>
      <NotebookUpload />
      <details>
        <summary>What the columns mean</summary>
        <ColumnTable />
      </details>
    </section>
  )
}

function ColumnTable() {
  const asked = useAnswer('/v1/imports/columns', {})
  const columns = (asked.got?.body.items ?? []).filter(({ common }) => common)
  return (
    <>
      <AnswerState asked={asked} />
      <Table label="Columns of a notebook" heads={['Column', 'Unit or words', 'Meaning']}>
        {columns.map(({ name, unit, values, description, kinds, needed }) => (
          <tr key={name}>
            <th scope="row">
              {name}
              {needed ? ' (needed)' : ''}
            </th>
            <td>{values?.join(', ') ?? unit ?? ''}</td>
            <td>
              {description}
              {kinds.length > 0 ? ` Of ${kinds.join(', ')}.` : ''}
            </td>
          </tr>
        ))}
      </Table>
    </>
  )
}
