// The day of one person on paper.
import { DateTime } from 'luxon';
import type { PdfFile } from '@backsight/documents/pdf/content';
import { pdfOf } from '@backsight/documents/pdf/write';
import { daySheetBlocks, type SheetVisit } from '@backsight/documents/papers/daySheet';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { findPerson } from '@backsight/store/people';
import { findReportJob } from '@backsight/store/sitework/report';
import { accessOfJobs, visitsOfPerson, type VisitRow } from '@backsight/store/sitework/visit';
import { letterhead } from '../firm/steps/letterhead.ts';
import { localDay } from '../firm/steps/localDay.ts';
import type { Actor } from '../run.ts';
import { mayCallPeople } from '../jobs/steps/mayCallPeople.ts';
import { reportDueOf } from './steps/reportJob.ts';
import { accessLines } from './steps/accessLines.ts';

type Ask = { personId: string; day: string; actor: Actor };

/** One's own day, or anybody's for the office and the lead inspector. How one gets in stands on it: it is for the pair alone, and numbers only around the day. */
export async function daySheet(reader: Reader, now: Date, { personId, day, actor }: Ask): Promise<Outcome<PdfFile>> {
  if (actor.kind !== 'person') return refuse('not-allowed');
  if (actor.id !== personId && !actor.roles.some((role) => role !== 'inspector')) return refuse('not-allowed');
  const person = await findPerson(reader, personId);
  if (!person) return refuse('not-found', { thing: 'person' });
  const { zone } = await localDay(reader, now);
  const visits = await visitsOfPerson(reader, personId, day, day);
  const sheet: SheetVisit[] = [];
  for (const visit of visits)
    sheet.push(await sheetVisit(reader, visit, { zone, reached: await mayCallPeople(reader, visit.jobId, { actor, now }) }));
  const head = await letterhead(reader, now, null);
  const words = DateTime.fromISO(day, { zone: 'utc', locale: 'en-US' }).toFormat('cccc, LLLL d, yyyy');
  return accept({
    name: `day-sheet-${day}-${person.name.toLowerCase().replaceAll(/[^a-z]+/g, '-')}.pdf`,
    bytes: await pdfOf({
      ...head,
      title: `${person.name}: ${words}`,
      foot: `Printed ${DateTime.fromJSDate(now, { zone }).setLocale('en-US').toFormat('LLL d, h:mm a ZZZZ')}; how to get in is for the pair alone`,
      blocks: daySheetBlocks(sheet),
    }),
  });
}

const LATER = 'given around the visit: from the day before until the day after';

async function sheetVisit(reader: Reader, visit: VisitRow, { zone, reached }: { zone: string; reached: boolean }): Promise<SheetVisit> {
  const at = (when: Date | string) => DateTime.fromJSDate(new Date(when), { zone }).setLocale('en-US').toFormat('h:mm a');
  const [access] = await accessOfJobs(reader, [visit.jobId]);
  const job = await findReportJob(reader, visit.jobId);
  const due = visit.kind === 'inspection' && job ? ((await reportDueOf(reader, job))?.at ?? null) : null;
  const late = visit.expectedAt && visit.expectedAt.getTime() !== visit.startsAt.getTime() ? `, expected ${at(visit.expectedAt)}` : '';
  return {
    when: `${at(visit.startsAt)} to ${at(visit.endsAt)}${late}`,
    kind: visit.kind.replaceAll('_', ' '),
    job: visit.jobNumber,
    address: `${visit.address}, ${visit.town}`,
    pair: visit.pair.map(({ name, place }) => `${name} (${place})`),
    services: visit.services.map((key) => visit.serviceNames[key] ?? key),
    kit: visit.kit,
    access: reached ? accessLines(access?.details) : [LATER],
    contacts: reached ? (access?.people ?? []).map((one) => ({ ...one, role: one.role.replaceAll('_', ' ') })) : LATER,
    due: due ? [`report by ${DateTime.fromISO(due, { zone }).setLocale('en-US').toFormat('cccc, LLLL d, h:mm a ZZZZ')}`] : [],
  };
}
