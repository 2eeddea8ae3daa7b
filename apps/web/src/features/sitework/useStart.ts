// Starting a visit from this phone: written here first, then told to the service; without signal it starts all the same.
import { useState } from 'react';
import { useQueryClient } from '@tanstack/react-query';
import type { SiteItem } from '@backsight/contract/sitework';
import type { Ahead, AheadVisit } from '@backsight/contract/sitework/ahead';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { keep, rowsOf, settle } from '../../api/phone/outbox.ts';
import { dropReplies, putReply } from '../../api/phone/replies.ts';
import { sendWaiting } from '../../api/phone/sending.ts';
import { recordQuery } from '../../api/sitework.ts';
import { openHere } from './openHere.ts';

/** As long as somebody waits with a finger on the button. */
const PATIENCE = 4000;

export type Starting = { items: SiteItem[]; systems: string[]; acknowledged: { personId: string; revisionId: string }[] };

/** `begin` answers whether the record is open here; `refused` is the service's sentence when it said no. */
export function useStart(ahead: Ahead | undefined, visit: AheadVisit | undefined) {
  const me = useMe();
  const queries = useQueryClient();
  const [refused, setRefused] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const begin = async (how: Starting): Promise<boolean> => {
    if (!ahead || !visit) return false;
    setBusy(true);
    setRefused(null);
    const now = new Date().toISOString();
    const { key } = queryOf(visit);
    await putReply(queries, key, openHere(ahead, visit, { items: how.items, systems: how.systems, me: me.id, now }));
    await keep(me.id, [startRow(visit, how, now)]);
    await Promise.race([sendWaiting(me.id), new Promise((done) => setTimeout(done, PATIENCE))]);
    const said = rowsOf(me.id).find((row) => row.recordId === visit.recordId && row.what.kind === 'act' && row.what.opens);
    setBusy(false);
    if (said?.state !== 'refused') {
      void queries.invalidateQueries({ queryKey: key });
      void queries.invalidateQueries({ queryKey: ['my-day'] });
      return true;
    }
    await settle(new Map([[said.n, null]]));
    await dropReplies(queries, ({ queryKey }) => queryKey.join() === key.join());
    setRefused(said.why ?? '');
    return false;
  };
  return { begin, busy, refused };
}

const queryOf = (visit: AheadVisit) => ({ key: recordQuery(visit.recordId).queryKey });

const startRow = (visit: AheadVisit, how: Starting, openedAt: string) => ({
  recordId: visit.recordId,
  id: newId(),
  says: `Start of the visit at ${visit.start.visit.address}`,
  what: {
    kind: 'act' as const,
    opens: true as const,
    path: `/api/visits/${visit.start.visit.id}/record`,
    body: { id: visit.recordId, ...how, offerId: visit.offerId, openedAt },
  },
});
