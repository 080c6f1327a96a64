import { createServer } from 'node:net'

import type { FastifyInstance } from 'fastify'

import { errorCode, messageOf, StartFault } from '../db/start-fault.ts'

export interface Address {
  readonly host: string
  /** 0: any free one. */
  readonly port: number
}

/**
 * Makes sure that the service will be able to listen, before anything slow is done.
 *
 * @throws {StartFault} where the port is taken or may not be used
 */
export async function requireFreePort(address: Address): Promise<void> {
  const { host, port } = address
  const probe = createServer()
  await new Promise<void>((resolve, reject) => {
    probe.once('error', (error) => reject(new StartFault(explain(error, address))))
    probe.listen({ host, port, exclusive: true }, () => probe.close(() => resolve()))
  })
}

/**
 * Starts to take requests.
 *
 * @returns the address for people, such as http://127.0.0.1:8080
 * @throws {StartFault} where the port is taken or may not be used
 */
export async function listen(app: FastifyInstance, address: Address): Promise<string> {
  try {
    await app.listen({ host: address.host, port: address.port })
  } catch (error) {
    throw new StartFault(explain(error, address))
  }
  const bound = app.server.address()
  const port = typeof bound === 'object' && bound !== null ? bound.port : address.port
  const host = address.host.includes(':') ? `[${address.host}]` : address.host
  return `http://${host}:${port}`
}

/** Takes no more requests, and resolves when those that were begun are answered. */
export async function closeApp(app: FastifyInstance): Promise<void> {
  // A connection is idle once its request is answered; the client would keep it for seconds.
  const sweep = setInterval(() => app.server.closeIdleConnections(), 50)
  await app.close().finally(() => clearInterval(sweep))
}

function explain(error: unknown, { host, port }: Address): string {
  switch (errorCode(error)) {
    case 'EADDRINUSE':
      return `Port ${port} on ${host} is in use by another program: stop that one, or set PORT to another port.`
    case 'EACCES':
      return `This user may not listen on port ${port} of ${host}: set PORT to one above 1023.`
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
      return `HOST is ${host}, which is not an address of this machine.`
    default:
      return `The service cannot listen on port ${port} of ${host}: ${messageOf(error)}.`
  }
}
