// Tells by mail what lapses, 180, 90 and 30 days before: the person his own, the office all of it. Each stage is told once.
import { DateTime } from 'luxon';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import type { Database, Reader } from '@backsight/store/database';
import { noticesBefore, saveNotices, type Notice } from '@backsight/store/people/lapsing';
import { listPeople, type PersonRow } from '@backsight/store/people';
import { FIRM_THING, localDay } from '../firm/steps/localDay.ts';
import type { Act, Runner, Work } from '../run.ts';
import { pressingLapses, type Lapse } from './steps/lapses.ts';
import { deciders } from './steps/tellOfAbsence.ts';

const noticeOf = ({ kind, id, what, on, stage }: Lapse): Notice => ({
  kind: kind === 'kit_check' || kind === 'provider' ? `${kind} ${what}` : kind,
  thingId: id,
  onDay: on,
  stage: stage ?? 180,
});
const keyOf = ({ kind, thingId, onDay, stage }: Notice): string => `${kind}|${thingId}|${onDay}|${stage}`;

async function untold(reader: Reader, now: Date): Promise<Lapse[]> {
  const lapses = (await pressingLapses(reader, (await localDay(reader, now)).today)).filter(
    ({ stage, lapsed, kind }) => stage !== null && (!lapsed || kind === 'kit_check'),
  );
  const told = new Set((await noticesBefore(reader, lapses.map(noticeOf))).map(keyOf));
  return lapses.filter((lapse) => !told.has(keyOf(noticeOf(lapse))));
}

export const warnOfLapses: Act<Record<string, never>, { told: number }> = { operation: 'people.warn-of-lapses', run: warn };

async function warn(work: Work): Promise<Outcome<{ told: number }>> {
  const lapses = await untold(work.tx, work.now);
  await saveNotices(work.tx, lapses.map(noticeOf), work.now);
  const office = await deciders(work);
  for (const to of office) await tell(work, to, lapses, 'What lapses soon');
  for (const person of await listPeople(work.tx)) {
    const own = lapses.filter(({ personId }) => personId === person.id);
    if (own.length > 0 && !office.some(({ id }) => id === person.id)) await tell(work, person, own, 'Yours to renew');
  }
  await work.did('firm', FIRM_THING, { lapsesTold: lapses.length });
  return accept({ told: lapses.length });
}

async function tell(work: Work, to: PersonRow, lapses: readonly Lapse[], subject: string): Promise<void> {
  const day = (iso: string): string => DateTime.fromISO(iso, { zone: 'utc', locale: 'en-US' }).toFormat('ccc, LLL d, yyyy');
  const lines = lapses.map(({ who, what, on, lapsed }) => `${day(on)}: ${what}, ${who}${lapsed ? ' (overdue)' : ''}`);
  if (lines.length === 0) return;
  await work.mail({
    messageKey: `lapses:${to.id}:${work.newId()}`,
    toAddress: to.email,
    toName: to.name,
    subject,
    body: `Last day, and what it is the last day of:\n\n${lines.join('\n')}\n\nWithout a follower on file nobody is offered, and nothing is taken along, after that day.\n`,
    aboutKind: 'person',
    aboutId: to.id,
  });
}

/** Tells what was not told yet; answers how many. */
export async function tellLapses(parts: { database: Database; runner: Runner; clock: () => Date }): Promise<number> {
  const waiting = await untold(parts.database.read, parts.clock());
  if (waiting.length === 0) return 0;
  const done = await parts.runner.run(warnOfLapses, {}, { actor: { kind: 'service' } });
  return done.ok ? done.value.told : 0;
}
