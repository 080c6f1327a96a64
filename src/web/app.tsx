import type { VNode } from 'preact'

import { later } from './components/later.tsx'
import { PageFrame } from './components/page-frame.tsx'
import { ComparePage } from './pages/compare/compare-page.tsx'
import { SignInPage } from './pages/sign-in-page.tsx'
import { StartPage } from './pages/start-page.tsx'
import { usePlace } from './router.ts'

const SubmitPage = later(async () => (await import('./pages/submit/submit-page.tsx')).SubmitPage)

interface Page {
  readonly title: string
  readonly show: (id: string) => VNode
}

const PAGES: Readonly<Record<string, Page>> = {
  '/': { title: '', show: () => <StartPage /> },
  '/compare': { title: 'Compare', show: () => <ComparePage /> },
  '/submit': { title: 'Submit a test', show: () => <SubmitPage /> },
  '/sign-in': { title: 'Sign in', show: () => <SignInPage /> },
}

const NOT_FOUND: Page = { title: 'Not found', show: () => <NotFound /> }

/** The page of an address: its first part, and what is named after it. */
export function App() {
  const { path } = usePlace()
  const [, first = '', id = ''] = path.split('/')
  const page = PAGES[id === '' ? `/${first}` : `/${first}/:id`] ?? NOT_FOUND
  return <PageFrame title={page.title}>{page.show(id)}</PageFrame>
}

function NotFound() {
  return (
    <>
      <h1>There is no such page</h1>
      <p>
        <a href="/">To the start</a>
      </p>
    </>
  )
}
