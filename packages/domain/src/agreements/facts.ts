// The facts of a job in the words of its agreement.
import { DateTime } from 'luxon';
import { CLOSING_DAYS } from '../shared/terms.ts';
import type { Terms } from '../jobs/words.ts';
import { formatUsd } from '../shared/money.ts';
import type { LAW_FIELDS } from './lawWords.ts';
import type { AgreementFacts } from './render.ts';

export type JobInWords = {
  number: number;
  firm: string;
  firmPhone: string;
  address: string;
  zone: string;
  terms: Terms;
  /** ISO instant by which the report is due; null while no visit is booked. */
  reportDueAt: string | null;
  feeCents: number;
  feeKnown: boolean;
  clients: readonly string[];
  visit: { startsAt: string; endsAt: string; pair: readonly { name: string; license: string | null }[] } | null;
  services: readonly { name: string; provider: string | null; contractsWithUs: boolean | null }[];
};

const TERMS: Record<Terms, string> = {
  due_at_booking: 'The fee is due when the appointment is booked, before the visit.',
  due_at_visit: 'The fee is due on the day of the visit.',
  deposit: 'A deposit is due before the visit and is held for the client until then; the rest is due on the day of the visit.',
  billed_to_closing: `The fee may be paid through the closing. It is due ${CLOSING_DAYS} days after the visit, whether or not the sale closes.`,
};

/** One for each zone: making one takes longer than everything else that is said of an appointment. */
const namers = new Map<string, Intl.DateTimeFormat>();

/** 'CDT'. */
function zoneName(at: DateTime, zone: string): string {
  const namer = namers.get(zone) ?? new Intl.DateTimeFormat('en-US', { timeZone: zone, timeZoneName: 'short' });
  namers.set(zone, namer);
  return namer.formatToParts(at.toJSDate()).find(({ type }) => type === 'timeZoneName')!.value;
}

/** 'Tuesday, May 19, 2026, 9:00 AM to 12:30 PM CDT' in the zone given. */
export function appointmentInWords(visit: { startsAt: string; endsAt: string }, zone: string): string {
  const [from, to] = [visit.startsAt, visit.endsAt].map((at) => DateTime.fromISO(at, { zone }).setLocale('en-US')) as [DateTime, DateTime];
  return `${from.toFormat('cccc, LLLL d, yyyy, h:mm a')} to ${to.toFormat('h:mm a')} ${zoneName(to, zone)}`;
}

/** '11:40 AM' in the zone given. */
export const timeInWords = (at: Date, zone: string): string => DateTime.fromJSDate(at, { zone }).setLocale('en-US').toFormat('h:mm a');

const notice = ({ name, provider, contractsWithUs }: JobInWords['services'][number]): string | null =>
  provider === null
    ? null
    : `${name} is done by ${provider}, which ${contractsWithUs ? 'works for the firm under contract' : 'contracts with the client directly'}.`;

/** Values of the fields that the job itself fills; what is not known yet is empty, and the text then refuses to be rendered. */
export function agreementFacts(job: JobInWords): Omit<AgreementFacts, (typeof LAW_FIELDS)[number]> {
  const { visit, zone } = job;
  const due = job.reportDueAt === null ? '' : DateTime.fromISO(job.reportDueAt, { zone }).setLocale('en-US').toFormat('LLLL d, yyyy');
  return {
    ...{ amount: '', payee: '', callback: '' },
    firm: job.firm,
    firm_phone: job.firmPhone,
    job: String(job.number),
    address: job.address,
    client: job.clients.join(' and '),
    appointment: visit ? appointmentInWords(visit, zone) : '',
    pair: visit ? visit.pair.map(({ name, license }) => (license ? `${name} (license ${license})` : name)).join(' and ') : '',
    services: job.services.map(({ name }) => name).join(', '),
    fee: job.feeKnown ? formatUsd(job.feeCents) : '',
    terms: TERMS[job.terms],
    report_due: due,
    notices: job.services
      .map(notice)
      .filter((text) => text !== null)
      .join('\n'),
  };
}
