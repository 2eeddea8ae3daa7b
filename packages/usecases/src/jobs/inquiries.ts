// A price that was asked and not booked: kept with a day to ask again, closed with what became of it, booked without typing it anew.
import { withDiscount, type DiscountSaid } from '@backsight/domain/fees/discount';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { findCatalog } from '@backsight/store/jobs/catalog';
import {
  addInquiry,
  closeInquiry,
  countOutcomes,
  findInquiry,
  listInquiries,
  setFollowUp,
  type InquiryRow,
  type Outcome as Became,
} from '@backsight/store/jobs/inquiries';
import { findJob } from '@backsight/store/jobs/jobs';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';
import { allowedDiscount } from './steps/discount.ts';
import { planOf, type Place } from './steps/plan.ts';

const LIMIT = 200;

const shown = ({ closedAt, recordedAt, ...row }: InquiryRow) => ({
  ...row,
  closedAt: closedAt?.toISOString() ?? null,
  recordedAt: recordedAt.toISOString(),
});

/** The newest 200, open ones first by their day; and how many became what. */
export async function readInquiries(reader: Reader, now: Date) {
  const { today } = await localDay(reader, now);
  const items = (await listInquiries(reader, LIMIT)).map((row) => {
    const { draft: _draft, lines: _lines, ...line } = shown(row);
    return line;
  });
  return { today, items, outcomes: await countOutcomes(reader) };
}

export async function readInquiry(reader: Reader, id: string) {
  const row = await findInquiry(reader, id);
  return row ? accept(shown(row)) : refuse('not-found', { thing: 'inquiry' });
}

export type InquiryInput = {
  id: string;
  caller: string;
  phone: string;
  email: string;
  address: string;
  facts: PropertyFacts;
  services: string[];
  day: string;
  place: Place | null;
  discount?: DiscountSaid | null | undefined;
  /** The booking as it was typed, handed back as it is. */
  draft: Record<string, unknown>;
  followUpOn: string | null;
  note: string;
};

/** Priced by the schedule in force, as a quote is. Refusals: follow-up-past, not-set-up, discount-above-fee, discount-limit. */
export const saveInquiry: Act<InquiryInput, { id: string; totalCents: number }> = { operation: 'jobs.save-inquiry', run: save };

async function save(
  work: Work,
  { facts, services, day, place, discount: said, ...input }: InquiryInput,
): Promise<Outcome<{ id: string; totalCents: number }>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  const late = await past(work, input.followUpOn);
  if (late) return late;
  const catalog = await findCatalog(work.tx, work.now);
  if (!catalog) return refuse('not-set-up', { what: 'office' });
  const plan = planOf(catalog, { facts, services, day, place });
  if (!plan.ok) return plan;
  const discount = await allowedDiscount(work.tx, said, { feeCents: plan.value.fee.totalCents, roles: work.actor.roles });
  if (!discount.ok) return discount;
  const { lines, totalCents } = withDiscount(plan.value.fee, discount.value);
  await addInquiry(work.tx, {
    ...input,
    lines,
    totalCents,
    scheduleId: catalog.schedule!.id,
    recordedAt: work.now,
    recordedBy: work.actor.id,
  });
  await work.did('inquiry', input.id, { totalCents, followUpOn: input.followUpOn, services });
  return accept({ id: input.id, totalCents });
}

async function past(work: Work, followUpOn: string | null) {
  if (followUpOn === null) return null;
  const { today } = await localDay(work.tx, work.now);
  return followUpOn < today ? refuse('follow-up-past', {}, 'followUpOn') : null;
}

async function open(work: Work, id: string, version: number): Promise<Outcome<InquiryRow>> {
  const row = await findInquiry(work.tx, id);
  if (!row) return refuse('not-found', { thing: 'inquiry' });
  if (row.outcome !== null) return refuse('inquiry-closed', { outcome: row.outcome });
  return row.version === version ? accept(row) : refuse('changed-meanwhile');
}

type Changed = { id: string; version: number };
export type FollowUpInput = Changed & { followUpOn: string | null; note: string };

/** Another day to ask again, and what was said. Refusals: inquiry-closed, follow-up-past. */
export const followUp: Act<FollowUpInput, Changed> = { operation: 'jobs.follow-up-inquiry', run: follow };

async function follow(work: Work, { id, version, followUpOn, note }: FollowUpInput): Promise<Outcome<Changed>> {
  const row = await open(work, id, version);
  if (!row.ok) return row;
  const late = await past(work, followUpOn);
  if (late) return late;
  if (!(await setFollowUp(work.tx, id, version, { followUpOn, note }))) return refuse('changed-meanwhile');
  await work.did('inquiry', id, { followUpOn });
  return accept({ id, version: version + 1 });
}

export type CloseInput = Changed & { outcome: Became; outcomeNote: string; jobId: string | null };

/** What became of it; booked names its job. Refusals: inquiry-closed, not-found. */
export const endInquiry: Act<CloseInput, Changed> = { operation: 'jobs.close-inquiry', run: close };

async function close(work: Work, { id, version, outcome, outcomeNote, jobId }: CloseInput): Promise<Outcome<Changed>> {
  const row = await open(work, id, version);
  if (!row.ok) return row;
  if (outcome === 'booked' && (jobId === null || !(await findJob(work.tx, jobId)))) return refuse('not-found', { thing: 'job' });
  const closed = { outcome, outcomeNote, jobId: outcome === 'booked' ? jobId : null, closedAt: work.now };
  if (!(await closeInquiry(work.tx, id, version, closed))) return refuse('changed-meanwhile');
  await work.did('inquiry', id, { outcome, jobId: closed.jobId });
  return accept({ id, version: version + 1 });
}
