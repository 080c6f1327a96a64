import { z } from 'zod'

export const Alive = z.object({ status: z.literal('alive') }).meta({ id: 'Alive' })

export const Ready = z.object({ status: z.literal('ready') }).meta({ id: 'Ready' })
