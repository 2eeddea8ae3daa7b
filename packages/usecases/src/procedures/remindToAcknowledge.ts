// Reminds inspectors by mail of revisions that they have not acknowledged, and tells owner and lead inspectors who was too late.
import { DateTime } from 'luxon';
import { isQuiet } from '@backsight/domain/mail/quiet';
import { reminderDue, type ReminderStage } from '@backsight/domain/procedures/reminders';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import type { Database, Reader } from '@backsight/store/database';
import { keysQueued } from '@backsight/store/mail/reminders';
import { findMailSettings } from '@backsight/store/mail/settings';
import { listPeople, type PersonRow } from '@backsight/store/people';
import { missingAcknowledgements, type MissingAcknowledgement } from '@backsight/store/procedures';
import { calendarOf } from '../firm/steps/calendar.ts';
import { FIRM_THING, localDay } from '../firm/steps/localDay.ts';
import type { Act, Runner, Work } from '../run.ts';

type Due = MissingAcknowledgement & { stage: ReminderStage };
type Input = { publicUrl: string };

const keyOf = ({ revisionId, personId, stage }: Due): string => `acknowledge:${revisionId}:${personId}:${stage}`;

/** Who is to be reminded now and was not yet. */
async function untold(reader: Reader, now: Date): Promise<Due[]> {
  const missing = await missingAcknowledgements(reader, now);
  if (missing.length === 0) return [];
  const calendar = await calendarOf(reader, null, now);
  const due = missing.flatMap((one): Due[] => {
    const stage = reminderDue(one.acknowledgeBy.toISOString(), now.toISOString(), calendar);
    return stage === null ? [] : [{ ...one, stage }];
  });
  const told = await keysQueued(reader, due.map(keyOf));
  return due.filter((one) => !told.has(keyOf(one)));
}

/** The acknowledgements are looked at again: somebody may have given one meanwhile. */
export const remindToAcknowledge: Act<Input, { told: number }> = { operation: 'procedures.remind', run: remind };

async function remind(work: Work, { publicUrl }: Input): Promise<Outcome<{ told: number }>> {
  const due = await untold(work.tx, work.now);
  const { zone } = await localDay(work.tx, work.now);
  const people = await listPeople(work.tx);
  for (const one of due) {
    const person = people.find(({ id }) => id === one.personId);
    if (person) await tellInspector(work, one, person, { publicUrl, zone });
  }
  for (const revisionId of new Set(due.filter(({ stage }) => stage === 'over').map((one) => one.revisionId)))
    await tellLeads(work, revisionId, due, people);
  for (const revisionId of new Set(due.map((one) => one.revisionId)))
    await work.did('procedure-revision', revisionId, {
      event: 'reminded',
      people: due.filter((one) => one.revisionId === revisionId).map(({ personId }) => personId),
    });
  if (due.length === 0) await work.did('firm', FIRM_THING, { reminded: 0 });
  return accept({ told: due.length });
}

async function tellInspector(work: Work, one: Due, person: PersonRow, at: { publicUrl: string; zone: string }): Promise<void> {
  const by = DateTime.fromJSDate(one.acknowledgeBy, { zone: at.zone }).setLocale('en-US').toFormat('cccc, LLLL d, h:mm a');
  const line =
    one.stage === 'before'
      ? `Please read what is different and confirm by ${by}.`
      : `You were to confirm it by ${by}. Until you have, you are not offered for new visits; those that are booked stay, and you are asked at the start.`;
  await work.mail({
    messageKey: keyOf(one),
    toAddress: person.email,
    toName: person.name,
    aboutKind: 'procedure-revision',
    aboutId: one.revisionId,
    subject: `${one.procedureTitle}: revision ${one.number} ${one.stage === 'before' ? 'still to read' : 'was not confirmed'}`,
    body: `${person.name},\n\nthe procedure "${one.procedureTitle}" has changed. ${line}\n\n${at.publicUrl}/procedures/acknowledge/${one.revisionId}\n`,
  });
}

async function tellLeads(work: Work, revisionId: string, due: readonly Due[], people: readonly PersonRow[]): Promise<void> {
  const late = due.filter((one) => one.revisionId === revisionId && one.stage === 'over');
  const names = late.map(({ personId }) => people.find(({ id }) => id === personId)?.name ?? '').join(', ');
  const { procedureTitle, number } = late[0]!;
  for (const lead of people.filter(({ endedOn, roles }) => endedOn === null && roles.includes('lead_inspector')))
    await work.mail({
      messageKey: `acknowledge:${revisionId}:lead:${lead.id}:${late
        .map(({ personId }) => personId)
        .sort()
        .join('+')
        .slice(0, 200)}`,
      toAddress: lead.email,
      toName: lead.name,
      aboutKind: 'procedure-revision',
      aboutId: revisionId,
      subject: `${procedureTitle}: revision ${number} not confirmed by all`,
      body: `${lead.name},\n\nrevision ${number} of "${procedureTitle}" was not confirmed in time by: ${names}.\nThey are not offered for new visits until they have; booked visits stay.\n`,
    });
}

type Parts = { database: Database; runner: Runner; clock: () => Date; publicUrl: string };

/** Reminds outside the quiet hours of the firm and unless mail is paused; answers how many inspectors were told. */
export async function remindOfRevisions({ database, runner, clock, publicUrl }: Parts): Promise<number> {
  const [reader, now] = [database.read, clock()];
  const settings = await findMailSettings(reader);
  const { zone } = await localDay(reader, now);
  if (settings.pausedAt || isQuiet(now, zone, settings) || (await untold(reader, now)).length === 0) return 0;
  const done = await runner.run(remindToAcknowledge, { publicUrl }, { actor: { kind: 'service' } });
  return done.ok ? done.value.told : 0;
}
