import type { VNode } from 'preact'

import { later } from './components/later.tsx'
import { PageFrame } from './components/page-frame.tsx'
import { ComparePage } from './pages/compare/compare-page.tsx'
import { SignInPage } from './pages/sign-in-page.tsx'
import { StartPage } from './pages/start-page.tsx'
import { usePlace } from './router.ts'

const SubmitPage = later(async () => (await import('./pages/submit/submit-page.tsx')).SubmitPage)
const SetupsPage = later(async () => (await import('./pages/setups-page.tsx')).SetupsPage)
const SetupPage = later(async () => (await import('./pages/setup/setup-page.tsx')).SetupPage)
const ComponentPage = later(async () => (await import('./pages/component-page.tsx')).ComponentPage)
const MinePage = later(async () => (await import('./pages/mine/mine-page.tsx')).MinePage)
const DataPage = later(async () => (await import('./pages/data-page.tsx')).DataPage)
const MethodPage = later(async () => (await import('./pages/method-page.tsx')).MethodPage)
const ReviewsPage = later(
  async () => (await import('./pages/reviews/reviews-page.tsx')).ReviewsPage,
)

interface Page {
  readonly title: string
  readonly show: (id: string) => VNode
}

const PAGES: Readonly<Record<string, Page>> = {
  '/': { title: '', show: () => <StartPage /> },
  '/compare': { title: 'Compare', show: () => <ComparePage /> },
  '/submit': { title: 'Submit a test', show: () => <SubmitPage /> },
  '/setups': { title: 'Setups', show: () => <SetupsPage /> },
  '/setups/:id': { title: 'Setup', show: (id) => <SetupPage key={id} id={id} /> },
  '/components/:id': { title: 'Component', show: (id) => <ComponentPage key={id} id={id} /> },
  '/mine': { title: 'My tests', show: () => <MinePage /> },
  '/data': { title: 'Data', show: () => <DataPage /> },
  '/method': { title: 'Method', show: () => <MethodPage /> },
  '/reviews': { title: 'Reviews', show: () => <ReviewsPage id="" /> },
  '/reviews/:id': { title: 'Review', show: (id) => <ReviewsPage key={id} id={id} /> },
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
      <p>The address may be mistyped, or of something that was never here.</p>
      <p>
        <a href="/">To the start</a>, or <a href="/setups">find a setup</a>.
      </p>
    </>
  )
}
