import Fastify, { type FastifyInstance, type FastifyServerOptions } from 'fastify'
import { serializerCompiler, validatorCompiler } from 'fastify-type-provider-zod'

import type { Database } from './db/client.ts'
import { FitStore } from './db/fit-store.ts'
import { accountRoutes } from './features/accounts/routes.ts'
import { keySetRoutes } from './features/accounts/sessions/routes.ts'
import { verifyBearer } from './features/accounts/verify-bearer.ts'
import { attributionRoutes } from './features/attributions/routes.ts'
import { calculatorRoutes } from './features/calculators/routes.ts'
import { NewComponent } from './features/catalogue/components/schema.ts'
import { catalogueRoutes } from './features/catalogue/routes.ts'
import { Ranker } from './features/comparisons/ranker.ts'
import { comparisonRoutes } from './features/comparisons/routes.ts'
import { LiveExports } from './features/datasets/exports/export-runs.ts'
import { RowGroupThread } from './features/datasets/files/parquet/thread.ts'
import { ReleaseMaker } from './features/datasets/release/maker.ts'
import { datasetRoutes } from './features/datasets/routes.ts'
import { tablesFor } from './features/datasets/tables/tables.ts'
import { FitRefresher } from './features/fits/refresher.ts'
import { fitRoutes } from './features/fits/routes.ts'
import { importRoutes } from './features/imports/routes.ts'
import { methodRoutes } from './features/method/routes.ts'
import { predictionRoutes } from './features/predictions/routes.ts'
import { reviewRoutes } from './features/reviews/routes.ts'
import { statusRoutes } from './features/status/routes.ts'
import { submissionPort } from './features/submissions/imported.ts'
import { submissionRoutes } from './features/submissions/routes.ts'
import { NewRun } from './features/submissions/run-kinds.ts'
import { tradeOffRoutes } from './features/trade-offs/routes.ts'
import auth from './http/auth.ts'
import errorHandler from './http/error-handler.ts'
import headers from './http/headers.ts'
import openapi from './http/openapi.ts'
import rateLimit from './http/rate-limit.ts'
import web from './http/web.ts'

export interface AppOptions {
  readonly db: Database
  readonly logger: FastifyServerOptions['logger']
  readonly rateLimit: boolean
  readonly trustProxy: boolean
  /** Days between scheduled releases of the dataset; absent: none but those that are asked for. */
  readonly datasetEveryDays?: number | undefined
}

declare module 'fastify' {
  interface FastifyInstance {
    /** Keeps the fits in step with the evidence; `refresh()` waits until they are. */
    fits: FitRefresher
    /** Makes releases of the dataset; `workOff()` waits until none is asked for. */
    releases: ReleaseMaker
    /** Live exports; `prepare()` works out what they have in common. */
    exports: LiveExports
  }
}

/** The whole service as one Fastify instance, not yet listening: every plugin and feature in one visible list. */
export async function buildApp(options: AppOptions): Promise<FastifyInstance> {
  const app = Fastify({
    logger: options.logger ?? false,
    trustProxy: options.trustProxy,
    bodyLimit: 1_048_576,
    requestTimeout: 30_000,
  })
  app.setValidatorCompiler(validatorCompiler)
  app.setSerializerCompiler(serializerCompiler)
  app.removeContentTypeParser('text/plain') // only JSON is read; anything else is a 415
  const store = new FitStore(options.db)
  const fits = new FitRefresher(options.db, app.log, store.take.bind(store))
  app.decorate('fits', fits)
  const tables = tablesFor(NewRun)
  const ranker = new Ranker()
  const rank = ranker.rank.bind(ranker)
  const rowGroups = new RowGroupThread()
  const makeGroups = rowGroups.make.bind(rowGroups)
  const workshop = { db: options.db, tables, fitsIn: fits.fitsIn.bind(fits), rank, makeGroups }
  const releases = new ReleaseMaker(workshop, app.log)
  app.decorate('releases', releases)
  const exports = new LiveExports({ db: options.db, tables, makeGroups })
  app.decorate('exports', exports)
  app.addHook('onReady', async () => releases.start(options.datasetEveryDays ?? null))
  app.addHook('onClose', async () => {
    await exports.close()
    await releases.close() // before the fits it needs
    await fits.close()
    await ranker.close()
    await rowGroups.close()
  })
  await app.register(errorHandler)
  await app.register(headers)
  await app.register(rateLimit, { enabled: options.rateLimit })
  await app.register(auth, { verify: verifyBearer(options.db) })
  await app.register(openapi)
  await app.register(web)
  await app.register(methodRoutes)
  await app.register(statusRoutes, { db: options.db })
  await app.register(keySetRoutes, { db: options.db })
  await app.register(accountRoutes, { prefix: '/v1', db: options.db })
  await app.register(calculatorRoutes, { prefix: '/v1' })
  await app.register(catalogueRoutes, {
    prefix: '/v1',
    db: options.db,
    onEvidenceChanged: () => fits.request(),
  })
  await app.register(submissionRoutes, {
    prefix: '/v1',
    db: options.db,
    onEvidenceChanged: () => fits.request(),
  })
  await app.register(importRoutes, {
    prefix: '/v1',
    db: options.db,
    submissions: submissionPort,
    catalogue: { component: NewComponent },
    tables,
    onEvidenceChanged: () => fits.request(),
  })
  const partFit = fits.partFit.bind(fits)
  const sources = { prefix: '/v1', db: options.db, fits: store, partFit }
  await app.register(comparisonRoutes, { ...sources, rank })
  await app.register(predictionRoutes, sources)
  await app.register(attributionRoutes, sources)
  await app.register(tradeOffRoutes, sources)
  await app.register(fitRoutes, { prefix: '/v1', db: options.db })
  await app.register(datasetRoutes, {
    prefix: '/v1',
    db: options.db,
    maker: releases,
    live: exports,
  })
  await app.register(reviewRoutes, {
    prefix: '/v1',
    db: options.db,
    onEvidenceChanged: () => fits.request(),
  })
  return app
}
