import type { Caller, Role } from '../../contract/caller.ts'
import { ApiProblem } from '../../contract/problems.ts'
import { recordAudit } from '../../db/audit.ts'
import type { Database } from '../../db/client.ts'
import { inTransaction } from '../../db/transaction.ts'
import { findStoredAbout } from './export-repository.ts'
import { hashPassword, passwordFault } from './password.ts'
import {
  eraseAccount,
  findAccount,
  insertAccount,
  isEmailTaken,
  lockAdministrators,
  updateRole,
} from './repository.ts'
import { type Account, type AccountExport, Email, type NewAccount } from './schema.ts'

/** Opens an account for a pilot. */
export async function signUp(db: Database, input: NewAccount): Promise<Account> {
  refuseWeakPassword(input)
  if (await isEmailTaken(db, input.email)) throw emailTaken()
  const { email, displayName } = input
  const passwordHash = await hashPassword(input.password)
  const account = await insertAccount(db, { email, displayName, passwordHash, role: 'pilot' })
  if (account === null) throw emailTaken() // by somebody who signed up at the same moment
  return account
}

/**
 * Makes sure that the configured administrator exists. Safe at every start: an account with that
 * e-mail is left as it is, its password and its role too.
 *
 * @returns whether the account was created now
 */
export async function ensureAdministrator(
  db: Database,
  administrator: { readonly email: string; readonly password: string },
): Promise<boolean> {
  const email = Email.parse(administrator.email)
  if (await isEmailTaken(db, email)) return false
  const input = { email, password: administrator.password, displayName: 'Administrator' }
  refuseWeakPassword(input)
  const passwordHash = await hashPassword(input.password)
  const { displayName } = input
  return (await insertAccount(db, { email, displayName, passwordHash, role: 'admin' })) !== null
}

/** Reads an open account, or fails with the problem "not-found". */
export async function getAccount(db: Database, id: string): Promise<Account> {
  const account = await findAccount(db, id)
  if (account === null) throw noSuchAccount(id)
  return account
}

/**
 * Gives an account another role; it holds from the next request on, and stands in the audit trail.
 * One administrator must remain.
 */
export function changeRole(
  db: Database,
  caller: Caller,
  { id, role }: { readonly id: string; readonly role: Role },
): Promise<Account> {
  return inTransaction(db, async (client) => {
    if (role !== 'admin') refuseLastAdministrator(await lockAdministrators(client), id)
    const changed = await updateRole(client, id, role)
    if (changed === null) throw noSuchAccount(id)
    const { account, before } = changed
    const event = { action: 'role.changed', subjectKind: 'account', subjectId: account.id } as const
    const detail = { from: before, to: role }
    if (before !== role)
      await recordAudit(client, [{ ...event, actorId: caller.accountId, detail }])
    return account
  })
}

/** Closes an account for good. What it submitted stays as evidence that names nobody. */
export function closeAccount(db: Database, id: string): Promise<void> {
  return inTransaction(db, async (client) => {
    refuseLastAdministrator(await lockAdministrators(client), id)
    await eraseAccount(client, id)
  })
}

/** Everything stored about a person, for that person. */
export async function exportAccount(db: Database, id: string): Promise<AccountExport> {
  const account = await getAccount(db, id)
  const stored = await findStoredAbout(db, id)
  return { exportedAt: new Date().toISOString(), account, ...stored }
}

function refuseWeakPassword(input: NewAccount): void {
  const fault = passwordFault(input.password, input)
  if (fault === null) return
  throw new ApiProblem('invalid-request', {
    detail: `The password ${fault}.`,
    errors: [{ pointer: '/password', detail: fault }],
  })
}

function refuseLastAdministrator(administrators: readonly string[], id: string): void {
  if (administrators.length === 1 && administrators[0] === id) {
    throw new ApiProblem('conflict', {
      detail: 'This is the only administrator; give another account that role first.',
    })
  }
}

function emailTaken(): ApiProblem {
  const detail = 'An account with this e-mail exists.'
  return new ApiProblem('conflict', { detail, errors: [{ pointer: '/email', detail }] })
}

function noSuchAccount(id: string): ApiProblem {
  return new ApiProblem('not-found', { detail: `There is no account ${id}.` })
}
