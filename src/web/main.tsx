import './styles/tokens.css'
import './styles/base.css'
import './styles/forms.css'
import './styles/parts.css'
import './styles/submit.css'
import './styles/charts.css'
import './styles/print.css'

import { render } from 'preact'

import { App } from './app.tsx'
import { keepSending } from './store/outbox.ts'

render(<App />, document.getElementById('app')!)
keepSending()

if ('serviceWorker' in navigator) {
  addEventListener('load', () => {
    // Without it the pages work as long as there is a network.
    navigator.serviceWorker.register('/service-worker.js').catch(() => {})
  })
}
