import type { StoredFile } from '../../files/store.ts'
import { citationOf, DESCRIPTION, type ReleaseFacts, TITLE } from '../facts.ts'
import { jsonLd } from './citation.ts'

/** index.html of a release: what it is, its files, and its description for search engines inside. */
export function landingPage(facts: ReleaseFacts, files: readonly StoredFile[]): string {
  const title = escapeHtml(`${TITLE}, release ${facts.id}`)
  const rows = files.map(
    ({ name, sizeBytes, sha256 }) =>
      `<tr><td><a href="${escapeHtml(name)}">${escapeHtml(name)}</a></td><td>${sizeBytes} bytes</td><td><code>${sha256}</code></td></tr>`,
  )
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<script type="application/ld+json">${inScript(jsonLd(facts, files))}</script>
</head>
<body>
<main>
<h1>${title}</h1>
<p>${escapeHtml(DESCRIPTION)}</p>
<p>${facts.anonymity.runs} runs, ${facts.anonymity.sessions} sessions, ${facts.anonymity.pilots} pilots, ${facts.setups} setups.</p>
<h2>Cite</h2>
<p>${escapeHtml(citationOf(facts))}</p>
<h2>Files</h2>
<table>
<thead><tr><th scope="col">File</th><th scope="col">Size</th><th scope="col">SHA-256</th></tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>
</main>
</body>
</html>
`
}

function escapeHtml(text: string): string {
  return text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`)
}

/** JSON that cannot end the element it stands in. */
function inScript(value: unknown): string {
  return JSON.stringify(value).replaceAll('<', '\\u003c')
}
