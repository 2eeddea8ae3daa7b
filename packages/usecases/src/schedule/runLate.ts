// The pair or the office says how late a visit is: what no longer fits behind it, and the one mail that its clients get.
import { DateTime } from 'luxon';
import { writeLetter } from '@backsight/domain/mail/letter';
import { expectedStarts, type LateVisit } from '@backsight/domain/schedule/late';
import { wallTime } from '@backsight/domain/schedule/wallClock';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { travelOf } from '@backsight/scheduling/travelModel';
import type { Reader } from '@backsight/store/database';
import { findAccess, type AccessRow } from '@backsight/store/jobs/access';
import { findCatalog } from '@backsight/store/jobs/catalog';
import { saveLateNotice, setExpected, visitsOfDayOf, type DayVisitRow } from '@backsight/store/schedule/late';
import { findWording, type Wording } from '@backsight/store/mail/wording';
import type { Act, Actor, Work } from '../run.ts';
import { mayCallPeople } from '../jobs/steps/mayCallPeople.ts';
import { mayDecide } from '../sitework/steps/mayDecide.ts';
import { loadWorld } from './steps/loadWorld.ts';

export type LateLine = {
  visitId: string;
  jobId: string;
  jobNumber: number;
  address: string;
  startsAt: string;
  expectedAt: string;
  lateMinutes: number;
  /** Whom the mail goes to; clients without an address are to be called. */
  mail: { partyId: string; name: string; email: string; subject: string; body: string }[];
  call: string[];
};
type Ask = { visitId: string; minutes: number };
type Late = { visitId: string; minutes: number; address: string; startsAt: string; lines: LateLine[] };

/** What would be told. Refusals: not-on-this-visit, visit-is. */
async function readLate(reader: Reader, input: Ask & { actor: Actor; now: Date }): Promise<Outcome<Late>> {
  const day = await visitsOfDayOf(reader, input.visitId);
  const late = day.find(({ id }) => id === input.visitId);
  if (!late) return refuse('visit-not-under-way');
  const { actor } = input;
  if (!mayDecide(actor) && !(actor.kind === 'person' && late.crew.includes(actor.id))) return refuse('not-on-this-visit');
  const catalog = (await findCatalog(reader, input.now))!;
  const { zone } = catalog.office;
  const on = wallTime(late.startsAt, zone).day;
  const { travel } = await loadWorld(reader, { from: on, to: on, now: input.now, officeId: catalog.office.id, zone });
  const expected = expectedStarts(asLate(late), input.minutes, day.map(asLate), travelOf(travel).minutes);
  const wording = await findWording(reader, 'running_late');
  const lines = expected.map((one) =>
    lineOf(
      day.find(({ id }) => id === one.id)!,
      one,
      { zone, wording, ...catalog.firm },
    ),
  );
  return accept({ visitId: late.id, minutes: input.minutes, address: late.address, startsAt: late.startsAt.toISOString(), lines });
}

/** The same with who opens each house: whoever waits at a door is called, by those who go there or the desk. */
export async function previewLate(reader: Reader, input: Ask & { actor: Actor; now: Date }) {
  const read = await readLate(reader, input);
  if (!read.ok) return read;
  const lines = await Promise.all(
    read.value.lines.map(async (line) => ({
      ...line,
      opens: openerOf(await findAccess(reader, line.jobId), await mayCallPeople(reader, line.jobId, input)),
    })),
  );
  return accept({ ...read.value, lines });
}

const openerOf = (access: AccessRow | null, reached: boolean): string | null =>
  access && access.opener !== '' ? [access.opener, reached ? access.phone : ''].filter((part) => part !== '').join(', ') : null;

const clock = (at: Date, zone: string): string => DateTime.fromJSDate(at, { zone }).setLocale('en-US').toFormat('h:mm a');

const asLate = ({ id, startsAt, endsAt, crew, lat, lon, state }: DayVisitRow): LateVisit => ({
  id,
  startsAt,
  endsAt,
  crew,
  place: { lat, lon },
  underWay: state === 'on_site',
});

function lineOf(
  visit: DayVisitRow,
  { expectedAt, lateMinutes }: { expectedAt: Date; lateMinutes: number },
  firm: { zone: string; name: string; phone: string; wording: Wording | null },
): LateLine {
  const booked = clock(visit.startsAt, firm.zone);
  const expected = clock(expectedAt, firm.zone);
  const told = visit.expectedAt?.getTime() === expectedAt.getTime();
  const values = { address: visit.address, job: String(visit.jobNumber), booked, expected, firm: firm.name, firm_phone: firm.phone };
  return {
    visitId: visit.id,
    jobId: visit.jobId,
    jobNumber: visit.jobNumber,
    address: visit.address,
    startsAt: visit.startsAt.toISOString(),
    expectedAt: expectedAt.toISOString(),
    lateMinutes,
    mail: visit.clients.flatMap(({ partyId, name, email }) =>
      email === null || told ? [] : [{ partyId, name, email, ...lateLetter(firm.wording, { ...values, name }) }],
    ),
    call: visit.clients.filter(({ email }) => email === null).map(({ name }) => name),
  };
}

/** @throws Error when a field is empty: the wording was checked when it was saved */
function lateLetter(wording: Wording | null, values: Record<string, string>): Wording {
  const written = writeLetter('running_late', wording, values);
  if (!written.ok) throw new Error(`the mail running_late cannot be written: ${JSON.stringify(written)}`);
  return written.value;
}

export const runLate: Act<Ask & { id: string }, { id: string; visits: number; mails: number }> = {
  operation: 'schedule.run-late',
  run: late,
};

/** Every client concerned gets one mail for one expected time, however often it is said. */
async function late(work: Work, input: Ask & { id: string }): Promise<Outcome<{ id: string; visits: number; mails: number }>> {
  const { actor, now } = work;
  if (actor.kind !== 'person') return refuse('not-allowed');
  const read = await readLate(work.tx, { ...input, actor, now });
  if (!read.ok) return read;
  const { lines } = read.value;
  for (const line of lines) {
    await setExpected(work.tx, line.visitId, new Date(line.expectedAt));
    for (const { partyId, name, email, subject, body } of line.mail)
      await work.mail({
        kind: 'running_late',
        urgent: true,
        messageKey: `late:${line.visitId}:${line.expectedAt}:${partyId}`,
        toAddress: email,
        toName: name,
        subject,
        body,
        aboutKind: 'job',
        aboutId: line.jobId,
      });
  }
  const told = lines.map(({ visitId, expectedAt, mail }) => ({ visitId, expectedAt, parties: mail.map(({ partyId }) => partyId) }));
  await saveLateNotice(work.tx, {
    id: input.id,
    visitId: input.visitId,
    minutes: input.minutes,
    told,
    recordedAt: now,
    recordedBy: actor.id,
  });
  const mails = lines.reduce((sum, { mail }) => sum + mail.length, 0);
  await work.did('visit', input.visitId, { lateMinutes: input.minutes, moved: lines.map(({ visitId }) => visitId), mails });
  return accept({ id: input.id, visits: lines.length, mails });
}
