import { useEffect, useRef, useState } from 'preact/hooks'

interface Jump {
  readonly id: string
  readonly words: string
}

/** Links to the parts of a long page, as they come: all headings of the second level with a name. */
export function Jumps({ label }: { readonly label: string }) {
  const nav = useRef<HTMLElement>(null)
  const [jumps, setJumps] = useState<readonly Jump[]>([])
  useEffect(() => {
    const main = nav.current?.closest('main')
    if (!main) return
    const collect = () => {
      const found = [...main.querySelectorAll('h2[id]')].map(({ id, textContent }) => ({
        id,
        words: textContent ?? '',
      }))
      setJumps((before) => (JSON.stringify(before) === JSON.stringify(found) ? before : found))
    }
    collect()
    const observer = new MutationObserver(collect)
    observer.observe(main, { childList: true, subtree: true })
    return () => observer.disconnect()
  }, [])
  return (
    <nav ref={nav} class="jumps no-print" aria-label={label}>
      <ul>
        {jumps.map(({ id, words }) => (
          <li key={id}>
            <a href={`#${id}`}>{words}</a>
          </li>
        ))}
      </ul>
    </nav>
  )
}
