import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'

import type { Database } from '../../db/client.ts'
import { componentRoutes } from './components/routes.ts'
import { setupRoutes } from './setups/routes.ts'

export interface CatalogueRoutesOptions {
  readonly db: Database
}

/** Components, and the setups they are flown in. */
export const catalogueRoutes: FastifyPluginAsyncZod<CatalogueRoutesOptions> = async (
  app,
  { db },
) => {
  await app.register(componentRoutes, { db })
  await app.register(setupRoutes, { db })
}
