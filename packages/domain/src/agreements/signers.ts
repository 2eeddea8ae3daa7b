// Who may sign for whom, and whether an address is the client's own.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

export const CAPACITIES = {
  self: 'for themselves',
  attorney_in_fact: 'under a power of attorney',
  personal_representative: 'as executor or personal representative',
  trustee: 'as trustee',
  guardian: 'as guardian',
  company_officer: 'as officer of a company',
} as const;
export type Capacity = keyof typeof CAPACITIES;

export type Client = { partyId: string; name: string; email: string | null; minor: boolean };
/** Somebody else whose address a client's own may not be. */
export type Other = { name: string; email: string | null; as: string };

/** A job has at least one client, and no client is a minor. */
export function mayBeClients(clients: readonly Client[]): Outcome<null> {
  if (clients.length === 0) return refuse('no-client');
  const minors = clients.filter(({ minor }) => minor).map(({ name }) => name);
  return minors.length > 0 ? refuse('client-is-minor', { names: minors }) : accept(null);
}

/** Who signs for somebody else has the paper that allows it on file, or the reason why it is not is recorded. */
export const maySignAs = (capacity: Capacity, authority: string, onFile = false): Outcome<null> =>
  capacity === 'self' || onFile || authority.trim() !== '' ? accept(null) : refuse('authority-missing', {}, 'authority');

export type ClientAnswer = { kind: 'declined' | 'wants_paper'; happenedAt: string };

/** Whether a client wants paper: said so, and has not signed electronically since. */
export const wantsPaper = (s: { answer: ClientAnswer | null; signature: { method: string; happenedAt: string } | null }): boolean =>
  s.answer?.kind === 'wants_paper' && !(s.signature && s.signature.method !== 'paper' && s.signature.happenedAt > s.answer.happenedAt);

const same = (a: string | null, b: string | null): boolean => a !== null && b !== null && a.trim().toLowerCase() === b.trim().toLowerCase();

/**
 * Whose address the client's also is: an agent, payer, seller, staff member or another signer. An empty list means that it is the client's own.
 * A link sent to such an address might be signed by somebody else.
 */
export const addressOwners = (client: Client, clients: readonly Client[], others: readonly Other[]): string[] => [
  ...clients.filter((c) => c.partyId !== client.partyId && same(c.email, client.email)).map(({ name }) => `${name} (another signer)`),
  ...others.filter((other) => same(other.email, client.email)).map(({ name, as }) => `${name} (${as})`),
];

/** Days after the visit until which a private link opens its page. */
export const LINK_DAYS = 30;

/** A link opens its page until 30 days after the visit, or after its making when that is later. */
export const linkEnds = (visitEnds: Date | null, now: Date): Date =>
  new Date(Math.max(visitEnds?.getTime() ?? 0, now.getTime()) + LINK_DAYS * 86_400_000);

/** Who has still to sign. By firm policy everybody signs, or one signature is enough. */
export function stillToSign(signers: readonly { name: string; signed: boolean }[], everySigner: boolean): string[] {
  const missing = signers.filter(({ signed }) => !signed).map(({ name }) => name);
  return !everySigner && missing.length < signers.length ? [] : missing;
}
