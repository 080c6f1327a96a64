import { writeFile } from 'node:fs/promises'

import { buildApp } from '../app.ts'
import { openDatabase } from '../db/client.ts'
import { openApiText } from '../http/openapi.ts'

/** A pool connects on first use, and describing the routes uses none: nothing listens at this address. */
const NOWHERE = 'postgresql://nobody@127.0.0.1:1/none'

/** Writes openapi/openapi.json from the routes as they are registered. */
const db = openDatabase(NOWHERE)
const app = await buildApp({ db, logger: false, rateLimit: false, trustProxy: false })
try {
  await app.ready()
  await writeFile(new URL('../../openapi/openapi.json', import.meta.url), openApiText(app))
} finally {
  await app.close()
  await db.close()
}
