// Everything about one site record, loaded for the rules.
import type { ActWords, KnownAct } from '@backsight/domain/sitework/act';
import { orderOf } from '@backsight/domain/sitework/order';
import { comparePlaces, withheldFrom } from '@backsight/domain/sitework/partner';
import { standingEntries } from '@backsight/domain/sitework/standing';
import type { EndedAs } from '@backsight/domain/sitework/endedAs';
import type { KnownEntry } from '@backsight/domain/sitework/value';
import type { Reader } from '@backsight/store/database';
import {
  entriesOf,
  findRecord,
  issuedSteps,
  itemsOf,
  packagesOf,
  type EntryRow,
  type IssuedStep,
  type ItemRow,
  type PackageRow,
  type RecordRow,
} from '@backsight/store/sitework';
import { aliasesOf } from '@backsight/store/sitework/offline';
import { photosOf, type PhotoRow } from '@backsight/store/sitework/photos';
import { findVisit, type VisitRow } from '@backsight/store/sitework/visit';
import type { Actor } from '../../run.ts';
import { toCome } from './namedPhotos.ts';

export type Entry = EntryRow & KnownEntry;
export type LoadedRecord = {
  record: RecordRow;
  visit: VisitRow;
  packages: PackageRow[];
  items: ItemRow[];
  steps: IssuedStep[];
  /** Entries at steps. */
  entries: Entry[];
  /** What the pair did besides the steps, and the rows that hold it. */
  acts: KnownAct[];
  actRows: Entry[];
  /** Photos that have come. */
  photos: PhotoRow[];
  /** Entries that count. */
  standing: Entry[];
  /** Ids of the members, first before second. */
  pair: string[];
  /** Ids that second phones gave to things that were there, and which those are. */
  aliases: ReadonlyMap<string, string>;
};

/** `order` of the whole record; a row by itself is ordered by its own times. */
export const known = (row: EntryRow, order = orderOf([row])): Entry => ({
  ...row,
  evidence: row.value.evidence,
  filled: row.value.closedBy !== undefined,
  measures: row.value.measures ?? null,
  order: order.get(row.id)!,
});

/** An act with its words, which an erased text no longer has. */
export const actOf = (row: Entry): KnownAct => ({
  id: row.id,
  act: row.value.act!,
  words: row.note === null ? {} : (JSON.parse(row.note) as ActWords),
  by: row.observedBy,
  writtenBy: row.writtenBy,
  at: row.observedAt.toISOString(),
  order: row.order,
});

/** The record with its visit, or null when there is none. */
export async function loadRecord(reader: Reader, id: string): Promise<LoadedRecord | null> {
  const record = await findRecord(reader, id);
  if (!record) return null;
  const visit = await findVisit(reader, record.visitId);
  if (!visit) throw new Error('a record without a visit');
  const packages = await packagesOf(reader, id);
  const items = await itemsOf(reader, id);
  const steps = await issuedSteps(reader, id);
  const found = await entriesOf(reader, id);
  const order = orderOf(found);
  const rows = found.map((row) => known(row, order));
  const aliases = new Map((await aliasesOf(reader, id)).map((alias) => [alias.id, alias.standsFor]));
  const entries = rows.filter(({ value }) => value.act === undefined);
  const actRows = rows.filter(({ value }) => value.act !== undefined);
  return {
    record,
    visit,
    packages,
    items,
    steps,
    entries,
    actRows,
    acts: actRows.map(actOf),
    photos: await photosOf(reader, id),
    standing: standingEntries(entries),
    pair: visit.pair.map(({ personId }) => personId),
    aliases,
  };
}

/** Who was handed the record: the pair, and who was in it when a package was issued. What they wrote without signal still counts. */
export const handedTo = ({ pair, packages }: LoadedRecord): ReadonlySet<string> =>
  new Set([...pair, ...packages.flatMap(({ body }) => ((body.pair ?? []) as { personId: string }[]).map(({ personId }) => personId))]);

export const isMember = (visit: VisitRow, actor: Actor): boolean =>
  actor.kind === 'person' && visit.pair.some(({ personId }) => personId === actor.id);
export const leads = (actor: Actor): boolean =>
  actor.kind === 'person' && actor.roles.some((role) => role === 'owner' || role === 'lead_inspector');

/** What the partner recorded at partner checks, unseen by `personId` until the own answer is in, or none can be given any more. */
export const withheldIn = ({ record, steps, entries }: LoadedRecord, personId: string): Entry[] =>
  withheldFrom(
    personId,
    steps.filter(({ partnerCheck }) => partnerCheck),
    entries,
    record.endedAs,
  );

/** Both answers of every partner check that both have made, compared; and where the visit ended before the second look. */
export const comparisonsOf = ({ record, steps, pair, entries }: LoadedRecord) =>
  comparePlaces(
    steps.filter(({ partnerCheck }) => partnerCheck).map(({ stepKey, itemId, body }) => ({ stepKey, itemId, evidence: body.evidence })),
    pair,
    entries,
    record.endedAs,
  );

export const sealFacts = (loaded: LoadedRecord, endedAs: EndedAs | null) => ({
  places: loaded.steps,
  entries: loaded.standing,
  pair: loaded.pair,
  acts: loaded.acts,
  written: [...loaded.entries, ...loaded.actRows].filter(({ filled }) => !filled),
  photosToCome: toCome(loaded),
  differing: comparisonsOf(loaded).filter(({ result }) => result === 'differ'),
  endedAs,
});
