// Radon devices and water samples: left or drawn by the pair, fetched on a booked pick-up, sent, and their results told.
import { isBusinessDay, nextBusinessDay, shiftDay } from '@backsight/domain/shared/calendar';
import type { TestKind, TestStep } from '@backsight/domain/sitework/testItems';
import { addVisit } from '@backsight/usecases/jobs/moveVisit';
import { findStarts } from '@backsight/usecases/schedule/findStarts';
import { placeTestItem, stepTestItem } from '@backsight/usecases/sitework/testItems';
import type { Actor } from '@backsight/usecases/run';
import { dayOf, hoursAfter, minutesAfter } from '../calendar.ts';
import { chanceOf, type Chance } from '../chance.ts';
import { actorOf, byId } from '../people.ts';
import { valueOf, type Scene, type Stage } from '../stage.ts';
import { OFFICE, type DemoContext, type PlayedJob } from './context.ts';

const SHORTEST_HOURS = 48;
/** Over a weekend and a holiday: a test may take longer than its shortest time. */
const DAYS_TO_FETCH = 5;
/** Of the visits ahead, every so many pick-ups still wait for their booking. */
const STILL_OPEN = 12;

/** What the services of a booked job bring besides the inspection. */
export async function testsFollow(demo: DemoContext, stage: Stage, job: PlayedJob, services: readonly string[]): Promise<void> {
  if (job.plan.role === 'stopped') return;
  const chance = chanceOf(9_000 + job.plan.n);
  if (services.includes('well_water_sample')) stage.at(minutesAfter(job.startsAt, 50), drawsWater(demo, job, chance));
  if (!services.includes('radon')) return;
  const ahead = dayOf(job.startsAt) > demo.calendar.today;
  const pickup = ahead && job.plan.n % STILL_OPEN === 0 ? null : await bookPickup(stage, job);
  stage.at(minutesAfter(job.startsAt, 15), leavesMonitor(demo, job, pickup, chance));
}

type Pickup = { by: string; at: Date };

/** The first time after the test at which somebody is near. */
async function bookPickup(stage: Stage, job: PlayedJob): Promise<Pickup | null> {
  const earliest = hoursAfter(job.endsAt, SHORTEST_HOURS);
  const asked = {
    place: job.place,
    facts: job.facts,
    services: ['inspection', 'radon'],
    visitKind: 'radon_pickup',
    fromDay: dayOf(earliest),
    days: DAYS_TO_FETCH,
    objectionOn: null,
    propertyId: null,
    limit: 60,
    withoutVisit: null,
  };
  const { options } = valueOf(await findStarts(stage.reader, stage.now(), asked), 'a pick-up');
  for (const { startsAt, first } of options.filter((one) => new Date(one.startsAt) >= earliest).slice(0, 5)) {
    const start = { startsAt, first, second: null };
    const added = await stage.runner.run(addVisit, { jobId: job.jobId, kind: 'radon_pickup', start }, { actor: OFFICE });
    if (added.ok) return { by: first, at: new Date(startsAt) };
  }
  return null;
}

/** A monitor of the firm that is at no other house; a charcoal canister where all are out. */
const leavesMonitor =
  (demo: DemoContext, job: PlayedJob, pickup: Pickup | null, chance: Chance): Scene =>
  async (stage) => {
    const monitor = chance.odds(0.85) ? demo.monitors.shift() : undefined;
    const closedSince = hoursAfter(job.startsAt, -13 - chance.between(0, 6)).toISOString();
    const about = {
      kind: 'device' as const,
      serial: monitor ?? `CC-${4000 + job.number}`,
      what: monitor ? 'Continuous radon monitor, basement' : 'Charcoal canister, basement',
    };
    const itemId = await places(stage, job, { ...about, closedSince });
    if (!pickup) return;
    const fetched = minutesAfter(pickup.at, 6);
    stage.at(fetched, steps(itemId, 'collected', actorOf(byId(pickup.by))));
    stage.at(fetched, async () => void (monitor && demo.monitors.push(monitor)));
    const words = radonWords(chance.between(6, 78) / 10);
    if (monitor) return tells(demo, stage, { itemId, after: hoursAfter(fetched, 20), words });
    toTheLaboratory(stage, itemId, actorOf(byId(pickup.by)), { sent: hoursAfter(fetched, 2), received: hoursAfter(fetched, 40) });
    tells(demo, stage, { itemId, after: hoursAfter(fetched, 76), words });
  };

const drawsWater =
  (demo: DemoContext, job: PlayedJob, chance: Chance): Scene =>
  async (stage) => {
    const serial = `W-${job.number}`;
    const itemId = await places(stage, job, { kind: 'sample', serial, what: 'Well water, kitchen cold tap', closedSince: null });
    const drawn = stage.now();
    toTheLaboratory(stage, itemId, actorOf(byId(job.first)), { sent: hoursAfter(drawn, 5), received: hoursAfter(drawn, 23) });
    const bacteria = chance.odds(0.1)
      ? 'Coliform bacteria present; the well is to be disinfected and sampled again.'
      : 'No coliform bacteria.';
    tells(demo, stage, { itemId, after: hoursAfter(drawn, 24 * 5), words: `${bacteria} Nitrate ${chance.between(2, 68) / 10} mg/L.` });
  };

type Left = { kind: TestKind; serial: string; what: string; closedSince: string | null };

async function places(stage: Stage, job: PlayedJob, left: Left): Promise<string> {
  const trained = left.kind === 'device' && !byId(job.first).papers.radon ? job.second : job.first;
  const id = stage.newId();
  const happenedAt = stage.now().toISOString();
  await stage.act(actorOf(byId(trained)), placeTestItem, { ...left, id, jobId: job.jobId, happenedAt, occupantTold: true });
  return id;
}

const steps =
  (itemId: string, step: TestStep, actor: Actor, words = ''): Scene =>
  async (stage) => {
    const moved = step === 'collected' ? false : null;
    await stage.act(actor, stepTestItem, { itemId, step, happenedAt: stage.now().toISOString(), moved, words });
  };

function toTheLaboratory(stage: Stage, itemId: string, actor: Actor, at: { sent: Date; received: Date }): void {
  stage.at(at.sent, steps(itemId, 'sent', actor));
  stage.at(at.received, steps(itemId, 'received', OFFICE));
}

/** The office calls the client in the morning of the next working day. */
function tells({ calendar }: DemoContext, stage: Stage, about: { itemId: string; after: Date; words: string }): void {
  const next = shiftDay(dayOf(about.after), 1);
  const day = isBusinessDay(next, calendar.business) ? next : nextBusinessDay(next, calendar.business);
  stage.at(calendar.at(day, 9, 40), steps(about.itemId, 'told', OFFICE, about.words));
}

/** The action level of 4 pCi/L is that of the Environmental Protection Agency. */
const ACTION_LEVEL = 4;
const radonWords = (level: number): string =>
  `Average ${level.toFixed(1)} pCi/L, ${level >= ACTION_LEVEL ? 'at or above' : 'below'} the action level of ${ACTION_LEVEL} pCi/L.`;
