// The one way for screens of the site record to read it and to add to it: from this phone, with or without signal.
import { useEffect } from 'react';
import { useQuery } from '@tanstack/react-query';
import type { MemberRecord, SiteItem, SiteStep } from '@backsight/contract/sitework';
import { ACT_NAMES, type ActKind } from '@backsight/domain/sitework/act';
import { placeOf } from '@backsight/domain/sitework/value';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { dropDrafts } from '../../api/phone/drafts.ts';
import { keep, settle, useOutbox, type UncountedEntry } from '../../api/phone/outbox.ts';
import type { Row } from '../../api/phone/store.ts';
import { recordQuery } from '../../api/sitework.ts';
import { withAdded } from './recordModel.ts';

export type Waiting = Row;

export type NewAct = { path: string; body: object; says: string; does?: 'end' | 'seal'; adds?: { items: SiteItem[]; steps: SiteStep[] } };

export type RecordHere = {
  /** The record as this phone knows it: what the service had, and things added here since. Null while it was never read. */
  record: MemberRecord | null;
  error: unknown;
  isPending: boolean;
  /** What was done here and is not seen from the service yet, in order; also what it refused. */
  waiting: readonly Waiting[];
  /** Writes entries to this phone, in their order; sending follows by itself. @throws when the phone cannot keep them */
  addEntries: (entries: readonly UncountedEntry[]) => Promise<void>;
  /** Writes another act to this phone: the filled path of a creating route and its body. It is sent in order, once. */
  addAct: (act: NewAct) => Promise<void>;
};

/** The record as it is on this phone. */
export function useRecord(recordId: string): RecordHere {
  const me = useMe();
  const query = useQuery(recordQuery(recordId));
  const holds = new Set(query.data?.holds);
  const mine = useOutbox().filter((row) => row.personId === me.id && row.recordId === recordId);
  const waiting = mine.filter((row) => row.state !== 'stored' || !holds.has(row.id));
  const record = query.data ? withAdded(query.data, waiting) : null;
  useForgetting(mine.filter((row) => !waiting.includes(row)));
  const titleOf = (key: string): string =>
    record?.steps.find(({ stepKey }) => stepKey === key)?.title ?? ACT_NAMES[key.replace('site:', '') as ActKind] ?? key;
  const addEntries = async (entries: readonly UncountedEntry[]) => {
    const rows = entries.map((entry) => ({
      recordId,
      id: entry.id,
      says: titleOf(entry.stepKey),
      what: { kind: 'entry' as const, entry },
    }));
    await keep(me.id, rows);
    dropDrafts(me.id, recordId, entries.map(placeOf));
  };
  const addAct = ({ says, ...act }: NewAct) => keep(me.id, [{ recordId, id: newId(), says, what: { kind: 'act', ...act } }]);
  return { record, error: query.error, isPending: query.isPending, waiting, addEntries, addAct };
}

/** What the record shows as the service has it is forgotten here. */
function useForgetting(held: readonly Waiting[]): void {
  const key = held.map(({ n }) => n).join();
  useEffect(() => {
    if (key !== '') void settle(new Map(key.split(',').map((n) => [Number(n), null])));
  }, [key]);
}
