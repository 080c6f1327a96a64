type Children = preact.ComponentChildren

export interface FiguresRow {
  readonly key: string
  /** What the figures are of. */
  readonly head: Children
  readonly cells: readonly Children[]
}

interface Props {
  /** What the table holds, for those who do not see it. */
  readonly label: string
  readonly heads: readonly string[]
  readonly rows: readonly FiguresRow[]
}

/** What stands where there is no figure; left out where each line is a block. */
const NOTHING = '–'

/** As long as '49 runs, 18 sessions, 7 pilots'. What is longer are words, which may go over lines. */
const LONGEST_FIGURE = 30

/** Figures by line. Where it is narrow each line becomes a block, every figure under its own head. */
export function FiguresTable({ label, heads, rows }: Props) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by key
    <section class="table-box" tabIndex={0} aria-label={label}>
      <table class="figures">
        <thead>
          <tr>
            {heads.map((head) => (
              <th scope="col" key={head}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, head, cells }) => (
            <tr key={key}>
              <th scope="row">{head}</th>
              {cells.map((cell, index) => (
                <td
                  key={`${index}`}
                  data-head={heads[index + 1]}
                  data-empty={cell === NOTHING || undefined}
                  data-words={
                    (typeof cell === 'string' && cell.length > LONGEST_FIGURE) || undefined
                  }
                >
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
