import { z } from 'zod'

/** Identifier of a stored record. */
export const Id = z.uuid()

/** Path parameters of routes on one record. */
export const IdParams = z.object({ id: Id })
