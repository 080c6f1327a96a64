import { writeFile } from 'node:fs/promises'

import { buildApp } from '../app.ts'
import { openDatabase } from '../db/client.ts'
import { openApiText } from '../http/openapi.ts'
import { apiTypes } from './api-types.ts'

/** A pool connects on first use, and describing the routes uses none: nothing listens at this address. */
const NOWHERE = 'postgresql://nobody@127.0.0.1:1/none'

const inSource = (path: string) => new URL(`../../${path}`, import.meta.url)

/** Writes openapi/openapi.json from the routes as they are registered, and the types the pages use. */
const db = openDatabase(NOWHERE)
const app = await buildApp({ db, logger: false, rateLimit: false, trustProxy: false })
try {
  await app.ready()
  const text = openApiText(app)
  await writeFile(inSource('openapi/openapi.json'), text)
  await writeFile(inSource('src/web/api/types.ts'), await apiTypes(text))
} finally {
  await app.close()
  await db.close()
}
