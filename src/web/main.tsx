import { render } from 'preact'

render(<p>Fairclimb</p>, document.getElementById('app')!)
