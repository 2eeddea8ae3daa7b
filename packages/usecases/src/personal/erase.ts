// Erasing one person: what will go and what stays is shown first, and exactly that is done.
import { BACKUPS, partyLines, staffLines, type AskedHow, type EraseLine, type Subject } from '@backsight/domain/personal/erasure';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { dayIn, type Reader } from '@backsight/store/database';
import * as people from '@backsight/store/personal/people';
import { lockDisposal } from '@backsight/store/personal/retention';
import { localDay } from '../firm/steps/localDay.ts';
import { hashOf, type Act, type Work } from '../run.ts';
import { disposeUnit } from './steps/disposeUnit.ts';

type Who = { subject: Subject; id: string };
export type ErasePlan = { name: string; lines: EraseLine[]; fingerprint: string };

async function planOf(reader: Reader, { subject, id }: Who, now: Date): Promise<Outcome<ErasePlan>> {
  const { today } = await localDay(reader, now);
  if (subject === 'party') {
    const facts = await people.partyFacts(reader, id);
    return facts ? accept(planned(facts.name, partyLines(facts, today))) : refuse('not-found', { thing: 'person' });
  }
  const staff = await people.staffFacts(reader, id);
  if (!staff) return refuse('not-found', { thing: 'person' });
  return staff.ended ? accept(planned(staff.name, staffLines(staff, today))) : refuse('still-at-work', { name: staff.name });
}
const planned = (name: string, lines: EraseLine[]): ErasePlan => ({ name, lines, fingerprint: hashOf(lines) });

/** What would go and what would stay, and when somebody asked before. Refusals: not-found, still-at-work. */
export async function readErasure(reader: Reader, who: Who, now: Date) {
  const plan = await planOf(reader, who, now);
  if (!plan.ok) return plan;
  const asked = (await people.erasuresOf(reader, who.id)).map(({ at, ...row }) => ({ ...row, at: at.toISOString() }));
  return accept({ ...plan.value, backups: BACKUPS, asked });
}

type Ask = Who & { erasureId: string; askedOn: string; askedHow: AskedHow; fingerprint: string };

/** Refusals: not-found, still-at-work, erasure-changed, erased-already. */
export const erasePerson: Act<Ask, { id: string; gone: number; stays: number }> = {
  operation: 'personal.erase',
  run: async (work, ask) => {
    if (work.actor.kind !== 'person') return refuse('not-allowed');
    await lockDisposal(work.tx);
    const plan = await planOf(work.tx, ask, work.now);
    if (!plan.ok) return plan;
    const { lines, fingerprint } = plan.value;
    if (fingerprint !== ask.fingerprint) return refuse('erasure-changed');
    const going = lines.filter(({ goes }) => goes);
    if (going.length === 0) return refuse('erased-already');
    for (const act of ORDER) for (const one of going.filter((line) => line.act === act)) await STEPS[act](work, ask, one);
    const stays = lines.filter(({ goes }) => !goes).map(({ act, id, until }) => ({ act, id, until }));
    await people.saveErasure(work.tx, {
      ...{ id: ask.erasureId, subject: ask.subject, subjectId: ask.id, askedOn: dayIn(ask.askedOn), askedHow: ask.askedHow, stays },
      ...{ actorId: work.actor.id, recordedAt: work.now },
    });
    await work.did(ask.subject === 'party' ? 'party' : 'person', ask.id, { erased: going.map(({ act }) => act), stays: stays.length });
    return accept({ id: ask.erasureId, gone: going.length, stays: stays.length });
  },
};

/** Words found by an address go before the address itself. */
const ORDER: readonly EraseLine['act'][] = ['inquiries', 'mail', 'bars', 'searches', 'contact', 'job', 'papers', 'name'];

type Step = (work: Work, who: Who, line: EraseLine) => Promise<unknown>;
const STEPS: Record<EraseLine['act'], Step> = {
  inquiries: ({ tx }, { id }) => people.forgetInquiries(tx, id),
  mail: ({ tx }, { id }) => people.forgetOtherMail(tx, id),
  bars: ({ tx }, { id }) => people.forgetBars(tx, id),
  searches: ({ tx }, { id }) => people.forgetSearches(tx, id),
  contact: ({ tx, now }, { subject, id }) =>
    subject === 'party' ? people.forgetContact(tx, id, now) : people.forgetStaffContact(tx, id, now),
  job: (work, _, { id }) => disposeUnit(work, { kind: 'job', id: id! }, 'asked'),
  papers: (work, { id }) => disposeUnit(work, { kind: 'staff', id }, 'asked'),
  name: ({ tx }, { subject, id }) => (subject === 'party' ? people.forgetName(tx, id) : people.forgetStaffName(tx, id)),
};
