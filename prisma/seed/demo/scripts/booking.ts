// A call is answered: a start is found, held and confirmed, and what is still to get comes in one by one.
import { DateTime } from 'luxon';
import type { Source } from '@backsight/domain/jobs/words';
import { nextBusinessDay } from '@backsight/domain/shared/calendar';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { findJob } from '@backsight/store/jobs/jobs';
import { findVisit } from '@backsight/store/schedule/visits';
import { cancelJob } from '@backsight/usecases/jobs/cancelJob';
import { confirmJob } from '@backsight/usecases/jobs/confirmJob';
import { holdJob, type Held, type HoldInput } from '@backsight/usecases/jobs/holdJob';
import { lapseHolds } from '@backsight/usecases/jobs/lapseHolds';
import { promiseWindow } from '@backsight/usecases/schedule/keepVisit';
import { findStarts } from '@backsight/usecases/schedule/findStarts';
import { dayOf, hoursAfter, minutesAfter, ZONE } from '../calendar.ts';
import type { Start } from '@backsight/usecases/schedule/steps/reserveStart';
import type { Actor } from '@backsight/usecases/run';
import type { Chance } from '../chance.ts';
import { callerOf } from '../clients.ts';
import { FREEZER_HOME, flatOf, homeOf, type Home } from '../homes.ts';
import type { JobPlan } from '../plan.ts';
import { valueOf, type Scene, type Stage } from '../stage.ts';
import { WORK_AT_QUIET_HOURS } from '../workingTime.ts';
import { need, OFFICE, RUTH, TOMAS, type DemoContext, type PlayedJob } from './context.ts';
import { deskNotes } from './desk.ts';
import { moneyComesIn } from './money.ts';
import { clientsSign } from './signing.ts';
import { testsFollow } from './tests.ts';
import { visitHappens } from './visit.ts';

const SOURCES: Source[] = ['agent', 'agent', 'past_client', 'friend', 'search', 'sign', ''];

/** Given by hand now and then, with its reason on the quote. */
const SECOND_HOUSE = { cents: null, percent: 10, reason: 'Second house within a year' };

/** What is ordered besides the inspection, as far as it is offered for such a house. */
function servicesOf(facts: PropertyFacts, chance: Chance): string[] {
  const more = [
    chance.odds(0.35) ? 'radon' : null,
    chance.odds(0.14) ? 'wood_insects' : null,
    chance.odds(0.08) ? 'infrared' : null,
    facts.outbuildings === 1 && chance.odds(0.6) ? 'outbuilding' : null,
    facts.waterSource === 'private_well' && chance.odds(0.6) ? 'well_water_sample' : null,
    facts.waste === 'public_sewer' && chance.odds(0.12) ? 'sewer_camera' : null,
    facts.waste === 'septic' && chance.odds(0.2) ? 'septic' : null,
    facts.waterSource === 'private_well' && chance.odds(0.12) ? 'well_inspection' : null,
  ];
  return ['inspection', ...more.filter((key) => key !== null)];
}

/** Minutes between the start and the instant at which the pair shall be there, the best first. */
const BEFORE = [45, 60, 30, 75, 90];
const QUARTER = 900_000;

/** Starts to ask for in this order: those that cover an instant, if that is wished, then what the search ranks. */
async function startsFor(stage: Stage, plan: JobPlan, home: Home, services: string[]): Promise<Start[]> {
  if (plan.role === 'near_now')
    return WORK_AT_QUIET_HOURS.map(([one, two]) => ({ startsAt: plan.covers!.toISOString(), first: one.id, second: two.id }));
  for (const days of [1, 5]) {
    const asked = {
      place: home,
      facts: home.facts,
      services,
      visitKind: 'inspection',
      fromDay: plan.day,
      days,
      wishes: { half: plan.half },
      objectionOn: null,
      propertyId: null,
      limit: 12,
      withoutVisit: null,
    };
    const { options } = valueOf(await findStarts(stage.reader, stage.now(), asked), 'a start');
    const ranked = options.map(({ startsAt, first, second }): Start => ({ startsAt, first, second }));
    const one = plan.chance.odds(0.7) ? 0 : plan.chance.between(0, Math.max(0, Math.min(ranked.length - 1, 4)));
    if (ranked.length > 0) return [...covering(plan.covers, ranked), ranked[one]!, ...ranked];
  }
  return [];
}

const covering = (instant: Date | null, ranked: readonly Start[]): Start[] =>
  instant === null
    ? []
    : ranked.flatMap((start) =>
        BEFORE.map((minutes) => ({
          ...start,
          startsAt: new Date(Math.floor((instant.getTime() - minutes * 60_000) / QUARTER) * QUARTER).toISOString(),
        })),
      );

const CALLS = 4;

/** Answers one call, as far as its plan says. When nobody can come the caller asks again some hours later: a changed procedure may wait for its readers. */
export const call =
  (demo: DemoContext, plan: JobPlan, tries = 1): Scene =>
  async (stage) => {
    const { chance } = plan;
    const isFreezer = plan.role === 'freezer';
    const home = isFreezer ? FREEZER_HOME : plan.role === 'near_now' ? flatOf(homeOf(plan.n, chance)) : homeOf(plan.n, chance);
    const caller = callerOf(plan.n, chance, stage.newId, isFreezer ? { preListing: true, name: 'Constance Elmgren' } : {});
    const services =
      isFreezer || plan.role === 'near_now'
        ? ['inspection']
        : plan.role === 'fee'
          ? ['inspection', 'radon']
          : servicesOf(home.facts, chance);
    const { facts, ...property } = home;
    const booker = chance.odds(0.85) ? OFFICE : chance.pick([RUTH, TOMAS]);
    const jobId = stage.newId();
    const parties = caller.parties.map((party) => (party.mayReceiveReport ? { ...party, consentAt: stage.now().toISOString() } : party));
    const input = {
      id: jobId,
      property: { id: stage.newId(), ...property },
      facts,
      services,
      parties,
      terms: plan.terms,
      tenant: false,
      source: chance.pick(SOURCES),
      clientAttends: chance.odds(0.8),
      objectionOn: null,
      discount: plan.role === 'none' && plan.n % 29 === 7 ? SECOND_HOUSE : null,
      toldCents: null,
    };
    const held = await holdFirst(stage, booker, input, await startsFor(stage, plan, home, services));
    if (held === null) {
      if (tries < CALLS) stage.at(hoursAfter(stage.now(), 2.5 * tries), call(demo, plan, tries + 1));
      return;
    }
    if (plan.fate === 'lapses')
      return stage.at(
        minutesAfter(stage.now(), 21),
        async (later) => void (await lapseHolds({ database: { read: later.reader }, runner: later.runner, clock: later.now })),
      );
    const job = {
      plan,
      jobId,
      number: held.number,
      visitId: held.visitId,
      startsAt: new Date(held.startsAt),
      endsAt: new Date(held.endsAt),
      first: held.first,
      second: held.second!,
      place: home,
      caller,
      facts,
      totalCents: held.totalCents,
    };
    stage.at(minutesAfter(stage.now(), plan.fate === 'held_now' ? 19 : 4), async (later) => {
      const { agreementId, invoiceId } = await later.act(booker, confirmJob, { id: jobId, publicUrl: demo.publicUrl });
      await afterwards(demo, later, { ...job, agreementId, invoiceId }, services);
    });
  };

/** Holds the first start that is possible; null when none is. */
async function holdFirst(stage: Stage, booker: Actor, input: Omit<HoldInput, 'start'>, starts: readonly Start[]): Promise<Held | null> {
  for (const start of starts) {
    const held = await stage.runner.run(holdJob, { ...input, start }, { actor: booker });
    if (held.ok || !NOT_FREE.includes(held.code)) return valueOf(held, 'a hold');
  }
  return null;
}
const NOT_FREE = ['start-not-possible', 'person-taken', 'start-is-past'];

const WAYS_IN = [
  'Lock box at the side door, code from the listing office',
  'Opens at the front door and stays',
  'Key at the office of the agent',
  'Opens and leaves; calls us when back',
];

async function afterwards(demo: DemoContext, stage: Stage, job: PlayedJob, services: readonly string[]): Promise<void> {
  const { plan, jobId, startsAt } = job;
  const { chance } = plan;
  const now = stage.now();
  if (plan.fate === 'cancelled') {
    stage.at(
      lateOf(job, now),
      cancelled(jobId, chance.pick(['The sale fell through.', 'The buyers withdrew their offer.', 'The owner has decided not to sell.'])),
    );
    return;
  }
  if (dayOf(startsAt) > demo.calendar.today && plan.n % 5 < 2) stage.at(minutesAfter(now, 1), promised(job));
  if (dayOf(startsAt) > demo.calendar.today && plan.n % SEVERAL_DAYS === 3) stage.at(minutesAfter(now, 1), promisedDays(demo, job));
  const before = (hours: number): Date => new Date(Math.min(hoursAfter(now, hours).getTime(), hoursAfter(startsAt, -1).getTime()));
  const who = job.caller.preListing ? job.caller.clients[0]!.name! : job.caller.agent;
  stage.at(before(1 + chance.between(0, 2)), need(jobId, 'access', 'asked', who, ''));
  stage.at(before(chance.between(5, 30)), need(jobId, 'access', 'settled', who, chance.pick(WAYS_IN)));
  if (chance.odds(0.7)) stage.at(before(chance.between(6, 34)), need(jobId, 'utilities', 'settled', who, 'All on.'));
  await testsFollow(demo, stage, job, services);
  deskNotes(demo, stage, job);
  clientsSign(demo, stage, job);
  moneyComesIn(demo, stage, job);
  visitHappens(demo, stage, job);
}

/** What would be charged for cancelling late is waived. */
const KIND = 'The sale fell through overnight; they come back to us with the next house.';

/** Most cancel the same day, some only in the morning of the visit. */
const lateOf = ({ plan, startsAt }: PlayedJob, now: Date): Date => {
  const soon = hoursAfter(now, 6);
  const late = hoursAfter(startsAt, -3);
  return plan.n % 3 === 0 && late > soon ? late : soon;
};

const cancelled =
  (jobId: string, reason: string): Scene =>
  async (stage) => {
    const job = (await findJob(stage.reader, jobId))!;
    await stage.act(OFFICE, cancelJob, { id: jobId, version: job.version, reason, waive: true, waiver: KIND });
  };

/** Some clients of the days ahead were promised a morning or an afternoon, so that a plan of the day has room. */
const promised =
  ({ visitId, startsAt }: PlayedJob): Scene =>
  async (stage) => {
    const visit = await findVisit(stage.reader, visitId);
    const day = dayOf(startsAt);
    const window = [
      { from: stageTime(day, 8), until: stageTime(day, 11, 30) },
      { from: stageTime(day, 12), until: stageTime(day, 14, 30) },
    ].find(({ from, until }) => from <= startsAt.toISOString() && startsAt.toISOString() <= until);
    if (visit?.state === 'booked' && window) await stage.act(OFFICE, promiseWindow, { id: visitId, version: visit.version, window });
  };

/** Every so many clients leave the day open: that of the start or the working day after it. */
const SEVERAL_DAYS = 15;
const promisedDays =
  ({ calendar }: DemoContext, { visitId, startsAt }: PlayedJob): Scene =>
  async (stage) => {
    const visit = await findVisit(stage.reader, visitId);
    const day = dayOf(startsAt);
    const window = { from: stageTime(day, 7), until: stageTime(nextBusinessDay(day, calendar.business), 17) };
    if (visit?.state === 'booked') await stage.act(OFFICE, promiseWindow, { id: visitId, version: visit.version, window });
  };

const stageTime = (day: string, hour: number, minute = 0): string =>
  DateTime.fromISO(day, { zone: ZONE }).set({ hour, minute }).toUTC().toISO()!;
