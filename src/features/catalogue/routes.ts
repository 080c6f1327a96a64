import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'

import type { Database } from '../../db/client.ts'
import { componentRoutes } from './components/routes.ts'
import { mergeRoutes } from './merges/routes.ts'
import { setupRoutes } from './setups/routes.ts'

export interface CatalogueRoutesOptions {
  readonly db: Database
  /** What is compared has become another, so fits are made anew. */
  readonly onEvidenceChanged: () => void
}

/** Components, and the setups they are flown in. */
export const catalogueRoutes: FastifyPluginAsyncZod<CatalogueRoutesOptions> = async (
  app,
  { db, onEvidenceChanged }, // without the prefix, which holds already
) => {
  const options = { db, onEvidenceChanged }
  await app.register(componentRoutes, options)
  await app.register(setupRoutes, options)
  await app.register(mergeRoutes, options)
}
