// Accounts as they are shown, and to whom.
import { mayReadAccounts } from '@backsight/domain/callbacks/account';
import { accountRequests, accountsOf, type AccountRow } from '@backsight/store/callbacks/opinions';
import type { Reader } from '@backsight/store/database';

export const accountShown = ({ id, seq, seen, did, at }: AccountRow) => ({
  ...{ id, seq, seen: seen ?? '(erased)', did: did ?? '(erased)' },
  at: at.toISOString(),
});

/** For whoever judges: who was asked, for whom one waits, and what was given; nothing of it to who still owes an own account. */
export async function accountsFor(reader: Reader, callbackId: string, viewer: string, pair: readonly { id: string; name: string }[]) {
  const requests = await accountRequests(reader, callbackId);
  const mayRead = mayReadAccounts(viewer, requests);
  const given = mayRead ? await accountsOf(reader, callbackId, null) : [];
  const asked = new Set(requests.map(({ personId }) => personId));
  return {
    mayRead,
    people: requests.map(({ personId, name, askedBy, askedAt, given: count }) => ({
      ...{ personId, name, askedBy, askedAt: askedAt.toISOString(), given: count > 0 },
      accounts: given.filter((one) => one.personId === personId).map(accountShown),
    })),
    toAsk: [...new Map(pair.filter(({ id }) => !asked.has(id)).map(({ id, name }) => [id, { id, name }])).values()],
  };
}
