// The sealed site record of a past job: what was handed out by the revisions of its day, an entry for each step, both signatures, the seal.
import { actKey } from '@backsight/domain/sitework/act';
import { checkEntry } from '@backsight/domain/sitework/entry';
import { suggestItems, type RecordItem } from '@backsight/domain/sitework/items';
import { makePackage, type FrozenRevision, type PackageStep } from '@backsight/domain/sitework/package';
import type { EntryRow, IssuedStep } from '@backsight/store/sitework';
import { fingerprint } from '@backsight/usecases/sitework/steps/fingerprint';
import { basisOf } from '@backsight/usecases/sitework/steps/issuePackage';
import { known, type LoadedRecord } from '@backsight/usecases/sitework/steps/loadRecord';
import { sealOf } from '@backsight/usecases/sitework/steps/sealText';
import { minutesAfter } from '../calendar.ts';
import { find, type Found, type FindingContext } from '../scripts/answers.ts';
import type { Despite } from './jobRows.ts';
import type { PastJob } from './past.ts';
import type { Pen } from './pen.ts';
import { LISTED } from './shortBook.ts';
import { weatherOf } from './weather.ts';

export type SiteOf = {
  job: PastJob;
  visitId: string;
  startsAt: Date;
  endsAt: Date;
  services: readonly string[];
  /** What was missing at the start, of a visit that began all the same. */ despite: Despite | null;
  revisions: readonly FrozenRevision[];
};

/** The first entry at each step. */
export type Recorded = Map<string, string>;

type Site = SiteOf & { recordId: string; packageId: string; opened: Date; written: Date; sealed: Date; items: RecordItem[] };

/** Adds everything of the record. Its seal holds: it is taken over the same text as that of a record made on site. */
export function addRecord(pen: Pen, of: SiteOf): { recordId: string; recorded: Recorded } {
  const { job, endsAt } = of;
  const opened = minutesAfter(of.startsAt, 3);
  const items = suggestItems(job.home.facts)
    .filter(({ kind }) => LISTED.includes(kind) && (kind !== 'ground_fault_device' || job.chance.odds(0.4)))
    .map((item) => ({ id: pen.id(opened), ...item }));
  const site: Site = {
    ...of,
    ...{ items, opened, written: minutesAfter(endsAt, -4), sealed: minutesAfter(endsAt, job.chance.between(5, 40)) },
    ...{ recordId: pen.id(opened), packageId: pen.id(opened) },
  };
  const context = { facts: job.home.facts, services: of.services, day: job.day, items, pair: true };
  const steps = makePackage(of.revisions, context);
  const sha256 = addPackage(pen, site, steps);
  const entries = steps.flatMap((step, at) => entriesAt(pen, site, { step, at, of: steps.length }));
  const acts = [conditions(pen, site), ...[job.first.id, job.second.id].map((person) => signOff(pen, site, person))];
  for (const item of items) pen.add('recordItem', { ...item, recordId: site.recordId, recordedAt: opened });
  seal(pen, site, { sha256, entries, acts });
  return { recordId: site.recordId, recorded: new Map([...entries].reverse().map(({ stepKey, id }) => [stepKey, id])) };
}

function addPackage(
  pen: Pen,
  { job, revisions, recordId, packageId, opened, despite, services }: Site,
  steps: readonly PackageStep[],
): string {
  const rows = steps.map(({ step, item, revisionId, position, partnerCheck }) => ({
    ...{ id: pen.id(opened), stepKey: step.key, revisionId, itemId: item?.id ?? null, position, partnerCheck },
  }));
  const pair = [
    { personId: job.first.id, place: 'first' },
    { personId: job.second.id, place: 'second' },
  ];
  const basis = { day: job.day, facts: job.home.facts, services, pair, revisions: basisOf(revisions) };
  const gate = despite ? { missing: [despite.missing], sentences: [despite.sentence] } : { missing: [], sentences: [] };
  const whole = { ...basis, gate, doubleLook: null };
  const because = steps.map(({ because: why }, at) => ({ stepKey: rows[at]!.stepKey, itemId: rows[at]!.itemId, because: why }));
  const said = steps.map(({ step, item, because: why }, at) => ({ ...rows[at]!, because: why, step, item }));
  const sha256 = fingerprint({ ...whole, number: 1, steps: said });
  pen.add('sitePackage', {
    ...{ id: packageId, recordId, number: 1, body: { ...whole, because }, sha256, startDespiteGate: despite !== null },
    ...{ issuedAt: opened, recordedAt: opened },
  });
  for (const row of rows) pen.add('packageStep', { ...row, packageId });
  return sha256;
}

type Place = { step: PackageStep; at: number; of: number };

/** One entry, or one of each of the pair where both look. */
function entriesAt(pen: Pen, site: Site, { step, at, of }: Place): EntryRow[] {
  const { first, second } = site.job;
  const people = step.partnerCheck ? [first, second] : [at % 2 === 0 ? first : second];
  const span = (site.written.getTime() - site.opened.getTime()) / (of + 1);
  const observedAt = new Date(site.opened.getTime() + Math.round(span * (at + 1)));
  return people.map((person) => {
    const found = foundAt(site, step);
    const judged = checkEntry({ step: step.step, item: step.item }, found, { earlier: [], stepKeys: new Set() });
    if (!judged.ok) throw new Error(`a past entry of the demo was refused: ${judged.code} at ${step.step.key}`);
    const { outcome, reason, evidence, note } = found;
    return addEntry(pen, site, {
      ...{ stepKey: step.step.key, itemId: step.item?.id ?? null, outcome, reason, note, value: { evidence } as EntryRow['value'] },
      ...{ match: judged.value.match, observedBy: person.id, observedAt, recordedAt: site.written, deviceSeq: at + 1 },
    });
  });
}

const WINTER = [12, 1, 2, 3];

function foundAt({ job, packageId }: Site, { step, item, revisionId, system, position, partnerCheck }: PackageStep): Found {
  const winter = WINTER.includes(Number(job.day.slice(5, 7))) && job.n % 2 === 0;
  const context: FindingContext = {
    ...{ chance: job.chance, winter, vacant: job.home.facts.occupied === 'vacant', counts: new Map(), sound: partnerCheck },
  };
  const issued: IssuedStep = {
    ...{ packageId, stepKey: step.key, itemId: item?.id ?? null, revisionId, revisionNumber: 1, procedureTitle: '', system },
    ...{ position, partnerCheck, body: step },
  };
  return find(issued, context);
}

type Said = Pick<EntryRow, 'stepKey' | 'itemId' | 'outcome' | 'reason' | 'note' | 'value' | 'match' | 'observedBy' | 'observedAt'> &
  Pick<EntryRow, 'recordedAt' | 'deviceSeq'>;

function addEntry(pen: Pen, { recordId, packageId }: Site, said: Said): EntryRow {
  const { note, ...row } = said;
  const text = note === null ? null : pen.keep(note, said.recordedAt);
  const whole = { ...row, id: pen.id(said.recordedAt), packageId, writtenBy: said.observedBy, observedApprox: false, supersedesId: null };
  const clock = { deviceId: null, writtenAt: null, clockOffsetMs: null, happenedAt: said.recordedAt };
  pen.add('stepEntry', { ...whole, ...clock, recordId, textId: text?.id ?? null });
  return { ...whole, note, noteDigest: text?.digest ?? null };
}

const signOff = (pen: Pen, site: Site, person: string): EntryRow =>
  addEntry(pen, site, {
    ...{ stepKey: actKey('signed_off'), itemId: null, outcome: 'done', reason: null, note: null, match: 'not_asked', deviceSeq: 10_000 },
    ...{ observedBy: person, observedAt: site.sealed, recordedAt: site.sealed },
    value: { evidence: null, act: { do: 'signed_off', from: site.opened.toISOString(), until: site.sealed.toISOString() } },
  });

/** What was found around the house on coming: the weather of that day is the same at every house. */
function conditions(pen: Pen, site: Site): EntryRow {
  const { job, opened } = site;
  const { facts } = job.home;
  const act = {
    ...{ do: 'conditions', ...weatherOf(job.day), water: 'on', electricity: 'on' },
    gas: facts.heatingFuel?.includes('natural_gas') || facts.heatingFuel?.includes('propane') ? 'on' : 'none',
    house: facts.occupied === 'vacant' ? 'vacant' : 'occupied',
  };
  return addEntry(pen, site, {
    ...{ stepKey: actKey('conditions'), itemId: null, outcome: 'done', reason: null, note: null, match: 'not_asked', deviceSeq: 0 },
    ...{
      observedBy: job.first.id,
      observedAt: opened,
      recordedAt: minutesAfter(opened, 2),
      value: { evidence: null, act } as EntryRow['value'],
    },
  });
}

type Whole = { sha256: string; entries: readonly EntryRow[]; acts: readonly EntryRow[] };

function seal(pen: Pen, { recordId, visitId, opened, sealed, items, job }: Site, { sha256, entries, acts }: Whole): void {
  const record = { id: recordId, visitId, openedAt: opened, endedAs: 'complete' };
  const sealedOver = {
    ...{ record, packages: [{ number: 1, sha256 }], items, photos: [] },
    entries: entries.map((row) => known(row)),
    actRows: acts.map((row) => known(row)),
  } as unknown as LoadedRecord;
  pen.add('siteRecord', {
    ...record,
    ...{ state: 'sealed', sealedAt: sealed, sealSha256: sealOf(sealedOver), sealedBy: job.first.id, recordedAt: opened },
  });
}
