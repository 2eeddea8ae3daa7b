// A past job in the records: caller, house, fee, appointment and the way from held to reported.
import { quoteFee } from '@backsight/domain/fees/quote';
import type { FeeSchedule } from '@backsight/domain/fees/schedule';
import { minutesAfter, type DemoCalendar } from '../calendar.ts';
import { callerOf, type Caller } from '../clients.ts';
import { OFFICE, OFFICE_ID, PEOPLE } from '../people.ts';
import type { Chance } from '../chance.ts';
import type { PastJob } from './past.ts';
import type { Pen } from './pen.ts';

/** What all past jobs share. */
export type Firm = {
  calendar: DemoCalendar;
  scheduleId: string;
  rulesId: string;
  schedule: FeeSchedule;
  text: { id: string; consent: string };
  zipOf: (town: string) => string;
};

export type Booked = {
  job: PastJob;
  jobId: string;
  visitId: string;
  number: number;
  caller: Caller;
  bookedAt: Date;
  startsAt: Date;
  endsAt: Date;
  reportedAt: Date;
  feeCents: number;
  lines: { label: string; cents: number }[];
  terms: 'due_at_booking' | 'due_at_visit';
  services: string[];
  despite: Despite | null;
};

/** Why an owner let a pair begin although something was missing. */
export type Despite = { missing: 'agreement-unsigned' | 'fee-unpaid'; sentence: string; reason: string };

/** One start in so many, and whose words. */
const DESPITE = 1 / 70;
const despiteOf = (chance: Chance, client: string): Despite | null => {
  if (!chance.odds(DESPITE)) return null;
  return chance.odds(0.6)
    ? {
        missing: 'agreement-unsigned',
        sentence: `Not signed yet by ${client}. By firm policy the agreement is signed before the visit.`,
        reason: 'The client is on the way without signal and signs at the house before the walk-through.',
      }
    : {
        missing: 'fee-unpaid',
        sentence: 'The fee was due at booking and is not paid yet.',
        reason: 'The client brings a check to the walk-through.',
      };
};

/** What was ordered besides: wood-destroying insects most, an infrared scan in the cold months, outbuildings where there are any. */
function servicesOf({ home, day, chance }: PastJob): string[] {
  const cold = [11, 12, 1, 2, 3].includes(Number(day.slice(5, 7)));
  const extra = [
    chance.odds(0.24) ? 'wood_insects' : '',
    chance.odds(cold ? 0.16 : 0.05) ? 'infrared' : '',
    chance.odds(0.5) && (home.facts.outbuildings ?? 0) > 0 ? 'outbuilding' : '',
  ];
  return ['inspection', ...extra.filter((key) => key !== '')];
}

const PHONE_HOURS = 8;
/** Minutes from the end of a visit until its report is handed over. */
const REPORT_AFTER = [90, 1500] as const;

/** Adds the job with everything but papers, money and site record. */
export function addJob(pen: Pen, firm: Firm, job: PastJob): Booked {
  const { calendar } = firm;
  const startsAt = calendar.at(job.day, Math.floor(job.hour), (job.hour % 1) * 60);
  const bookedDay = new Date(startsAt.getTime() - job.lead * 86_400_000).toISOString().slice(0, 10);
  const bookedAt = new Date(calendar.at(bookedDay, PHONE_HOURS).getTime() + job.chance.between(0, 480) * 60_000 + job.n * 10);
  const endsAt = minutesAfter(startsAt, job.minutes);
  const services = servicesOf(job);
  const quote = quoteFee(firm.schedule, {
    ...{ facts: job.home.facts, services, day: job.day, travelMinutes: 15, startMinute: job.hour * 60 },
  });
  const caller = callerOf(700 + job.n, job.chance, () => pen.id(bookedAt));
  const despite = despiteOf(job.chance, caller.clients[0]!.name!);
  const booked: Booked = {
    ...{ job, jobId: pen.id(bookedAt), visitId: pen.id(bookedAt), number: 1001 + job.n, bookedAt, startsAt, endsAt },
    ...{ caller, services, despite },
    reportedAt: minutesAfter(endsAt, job.chance.between(...REPORT_AFTER)),
    ...{ feeCents: quote.totalCents, lines: quote.lines.map(({ label, cents }) => ({ label, cents })) },
    terms: despite?.missing !== 'fee-unpaid' && job.chance.odds(0.6) ? 'due_at_visit' : 'due_at_booking',
  };
  const propertyId = addHouse(pen, firm, booked);
  addPeople(pen, booked);
  quote.lines.forEach(({ rule, label, reason, cents, assumption = null }, position) =>
    pen.add('jobFeeLine', {
      ...{ id: pen.id(bookedAt), jobId: booked.jobId, position, ruleKey: rule, label, reason, cents, assumption, recordedAt: bookedAt },
    }),
  );
  for (const serviceKey of services) pen.add('jobService', { jobId: booked.jobId, serviceKey });
  addDespite(pen, booked);
  addVisit(pen, booked);
  addEvents(pen, firm, { ...booked, propertyId });
  pen.add('job', {
    ...{ id: booked.jobId, number: booked.number, propertyId, officeId: OFFICE_ID, kind: 'inspection', state: 'reported' },
    ...{ scheduleId: firm.scheduleId, rulesId: firm.rulesId, terms: booked.terms, facts: job.home.facts, version: 5, recordedAt: bookedAt },
  });
  return booked;
}

function addHouse(pen: Pen, firm: Firm, { job: { home }, bookedAt }: Booked): string {
  const id = pen.id(bookedAt);
  const { address, town, lat, lon, facts } = home;
  const addressKey = `${address.toLowerCase()}|${town.toLowerCase()}`;
  pen.add('property', {
    ...{
      id,
      address,
      town,
      zip: firm.zipOf(town),
      state: OFFICE.jurisdiction,
      lat,
      lon,
      placeBy: 'exact',
      addressKey,
      recordedAt: bookedAt,
    },
  });
  pen.add('factSheet', { id: pen.id(bookedAt), propertyId: id, facts, recordedAt: bookedAt, recordedBy: PEOPLE.office.id });
  return id;
}

function addPeople(pen: Pen, { caller, jobId, bookedAt }: Booked): void {
  for (const { id, name, email, phone } of caller.clients) pen.add('party', { id, name, email, phone, recordedAt: bookedAt });
  for (const party of caller.parties)
    pen.add('jobParty', {
      ...{ id: pen.id(bookedAt), partyId: party.id, role: party.role, jobId, mayReceiveReport: party.mayReceiveReport ?? false },
      consentAt: party.mayReceiveReport ? bookedAt : null,
    });
}

function addDespite(pen: Pen, { despite, visitId, startsAt }: Booked): void {
  if (!despite) return;
  const at = minutesAfter(startsAt, -12);
  const { missing, reason } = despite;
  const by = { actorId: PEOPLE.owner.id, happenedAt: at, recordedAt: at };
  pen.add('gateOverride', { id: pen.id(at), visitId, missing: [missing], reason, ...by });
}

function addVisit(pen: Pen, { visitId, jobId, startsAt, endsAt, bookedAt, job }: Booked): void {
  const sentence = `${job.first.name} first with ${job.second.name}.`;
  pen.add('visit', {
    ...{ id: visitId, jobId, kind: 'inspection', crewSize: 2, state: 'done', live: true, startsAt, endsAt, version: 4 },
    ...{ walkThroughMinutes: 20, recordedAt: bookedAt, because: { sentence } },
  });
  for (const [place, person] of [['first', job.first] as const, ['second', job.second] as const])
    pen.add('assignment', { visitId, place, personId: person.id, startsAt, endsAt, live: true });
}

function addEvents(pen: Pen, firm: Firm, b: Booked & { propertyId: string }): void {
  const { job, jobId, visitId, number, propertyId, startsAt, endsAt, bookedAt } = b;
  const { facts } = job.home;
  const held = {
    ...{ number, officeId: OFFICE_ID, propertyId, kind: 'inspection', facts, scheduleId: firm.scheduleId, rulesId: firm.rulesId },
    ...{ parentId: null, terms: b.terms, objectionOn: null, source: '', clientAttends: true, services: b.services },
    ...{ totalCents: b.feeCents, visitId, startsAt: startsAt.toISOString(), first: job.first.id, second: job.second.id },
  };
  const way: [string, string, object, Date, string][] = [
    ['held', 'held', held, bookedAt, PEOPLE.office.id],
    ['confirmed', 'booked', { visitId, startsAt: startsAt.toISOString() }, minutesAfter(bookedAt, 4), PEOPLE.office.id],
    ['started', 'on_site', { visitId }, minutesAfter(startsAt, 3), job.first.id],
    ['visited', 'visited', { visitId, endedAs: 'complete' }, minutesAfter(endsAt, -2), job.first.id],
    ['reported', 'reported', {}, b.reportedAt, job.first.id],
  ];
  way.forEach(([kind, state, details, at, actorId], n) =>
    pen.add('jobEvent', { id: pen.id(at), jobId, seq: n + 1, kind, state, details, actorId, happenedAt: at, recordedAt: at }),
  );
}
