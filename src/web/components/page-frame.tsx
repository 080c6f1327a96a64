import { useEffect, useRef } from 'preact/hooks'

import { isModerator } from '../api/role.ts'
import { useSession } from '../api/session.ts'
import { usePlace } from '../router.ts'
import { NewVersionNotice } from './new-version-notice.tsx'
import { SettingsPanel } from './settings-panel.tsx'
import { useOnline } from './use-online.ts'

const LINKS = [
  ['/compare', 'Compare'],
  ['/submit', 'Submit'],
  ['/setups', 'Setups'],
  ['/mine', 'My tests'],
  ['/data', 'Data'],
  ['/method', 'Method'],
] as const

/** For those who look after the data. */
const REVIEWS = ['/reviews', 'Reviews'] as const

interface Props {
  readonly title: string
  readonly children: preact.ComponentChildren
}

/** What every page has around it. Moves the focus to the page when it changes, as a new document would. */
export function PageFrame({ title, children }: Props) {
  const { path } = usePlace()
  const main = useRef<HTMLElement>(null)
  const isFirst = useRef(true)
  useEffect(() => {
    document.title = title === '' ? 'Fairclimb' : `${title} · Fairclimb`
    if (!isFirst.current) main.current?.focus()
    isFirst.current = false
  }, [title, path])
  return (
    <>
      <a class="skip" href="#main">
        To the content
      </a>
      <Masthead path={path} />
      <NewVersionNotice />
      <main id="main" ref={main} tabIndex={-1}>
        {children}
      </main>
      <footer class="no-print">
        <SettingsPanel />
        <p>
          Fairclimb compares figures. It declares nothing safe and clears nothing to fly: local
          rules, the makers’ instructions and licensed practice come first.
        </p>
        <p>
          <a href="/docs">Interface for programs</a> · no advertising, no trackers, nothing from
          other servers
        </p>
      </footer>
    </>
  )
}

function Masthead({ path }: { readonly path: string }) {
  const session = useSession()
  const isOnline = useOnline()
  return (
    <header class="masthead">
      <div class="plate">
        <a class="name" href="/">
          Fairclimb
        </a>
        {session === null ? (
          <a class="no-print" href="/sign-in">
            Sign in
          </a>
        ) : (
          <a class="no-print" href="/mine">
            {session.email}
          </a>
        )}
      </div>
      <nav class="no-print" aria-label="Pages">
        <ul>
          {[...LINKS, ...(isModerator(session) ? [REVIEWS] : [])].map(([href, label]) => (
            <li key={href}>
              <a href={href} aria-current={path.startsWith(href) ? 'page' : undefined}>
                {label}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      {!isOnline && (
        <p class="offline no-print" role="status">
          No network. What you write is kept on this device and can be sent later.
        </p>
      )}
    </header>
  )
}
