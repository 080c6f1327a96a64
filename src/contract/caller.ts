import { z } from 'zod'

export const ROLES = ['pilot', 'dealer', 'researcher', 'moderator', 'admin'] as const

export const Role = z.enum(ROLES)

export type Role = z.infer<typeof Role>

/** Who is asking, as far as a service needs to know. */
export interface Caller {
  readonly accountId: string
  readonly role: Role
  /** The session an access token belongs to; an API key has none. */
  readonly sessionId?: string
}
