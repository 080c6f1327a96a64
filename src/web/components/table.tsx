interface Props {
  /** What the table holds, for those who do not see it. */
  readonly label: string
  readonly heads: readonly string[]
  readonly children: preact.ComponentChildren
}

/** A table that scrolls sideways within itself where it is too wide. */
export function Table({ label, heads, children }: Props) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by key
    <section class="table-box" tabIndex={0} aria-label={label}>
      <table>
        <thead>
          <tr>
            {heads.map((head) => (
              <th scope="col" key={head}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </section>
  )
}
