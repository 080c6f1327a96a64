import type { Database } from '../../../src/db/client.ts'

/** Inserts invented parts and returns a way to make setups of them by short names. */
export async function partBox(db: Database) {
  const ids = new Map<string, string>()
  const part = async (kind: string, name: string, column: string, value: unknown) => {
    const known = ids.get(name)
    if (known !== undefined) return known
    const { rows } = await db.pool.query<{ id: string }>(
      `INSERT INTO component (kind, maker, model, ${column}) VALUES ($1, 'Invented', $2, $3) RETURNING id`,
      [kind, name, value],
    )
    ids.set(name, rows[0]!.id)
    return rows[0]!.id
  }
  return {
    idOf: (name: string) => ids.get(name)!,
    async setup(engine: string, propeller: string, frame: string): Promise<string> {
      const { rows } = await db.pool.query<{ id: string }>(
        'INSERT INTO setup (powerplant_id, propeller_id, frame_id) VALUES ($1, $2, $3) RETURNING id',
        [
          await part('powerplant', engine, 'drive', 'twoStroke'),
          await part('propeller', propeller, 'diameter_cm', 125),
          await part('frame', frame, 'mass_kg', 4),
        ],
      )
      return rows[0]!.id
    },
  }
}
