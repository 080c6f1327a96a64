import { once } from 'node:events'
import { type AddressInfo, connect, createServer, type Socket } from 'node:net'
import { pipeline } from 'node:stream'

/** The network between pages and a service: bytes go through, until it is cut. */
export interface Network {
  /** Where pages find the service. */
  readonly url: string
  /** Ends every connection; new ones end at once. */
  cut(): void
  mend(): void
  close(): Promise<void>
}

/**
 * A browser told to be offline is so page by page, and only while it is told: the last requests of a
 * page that closes go out again. What no request may pass has to be cut.
 */
export async function openNetwork(service: string): Promise<Network> {
  const { hostname, port } = new URL(service)
  const ends = new Set<Socket>()
  let isCut = false
  const drop = () => {
    for (const socket of ends) socket.destroy()
  }
  const server = createServer((near) => {
    if (isCut) {
      near.destroy()
      return
    }
    const far = connect(Number(port), hostname)
    for (const end of [near, far]) {
      ends.add(end)
      end.on('close', () => ends.delete(end))
    }
    // One end that breaks ends the other.
    pipeline(near, far, near, () => {})
  })
  server.listen(0, '127.0.0.1')
  await once(server, 'listening')
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    cut: () => {
      isCut = true
      drop()
    },
    mend: () => {
      isCut = false
    },
    close: async () => {
      server.close()
      drop()
      await once(server, 'close')
    },
  }
}
