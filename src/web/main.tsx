import './styles/tokens.css'
import './styles/base.css'
import './styles/forms.css'
import './styles/parts.css'
import './styles/submit.css'
import './styles/charts.css'
import './styles/print.css'

import { render } from 'preact'

import { App } from './app.tsx'
import { keepUpToDate } from './store/new-version.ts'
import { keepSending } from './store/outbox.ts'
import { forgetOthers } from './store/own-tests.ts'

render(<App />, document.getElementById('app')!)
keepSending()
forgetOthers()

if ('serviceWorker' in navigator) {
  addEventListener('load', () => {
    // Without it the pages work as long as there is a network.
    keepUpToDate().catch(() => {})
  })
}
