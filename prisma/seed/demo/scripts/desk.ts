// What the desk keeps besides bookings: who rides along, looks put off, miles, an absence, and houses that not everybody may go to.
import { looksOfJob } from '@backsight/store/jobs/laterLooks';
import { findJob } from '@backsight/store/jobs/jobs';
import { findDriveVisit } from '@backsight/store/schedule/drives';
import { routeTenths } from '@backsight/scheduling/distance';
import { markHouse } from '@backsight/usecases/jobs/changeParties';
import { declineLook } from '@backsight/usecases/jobs/laterLooks';
import { addObserver } from '@backsight/usecases/jobs/observers';
import { addAbsence, decideAboutAbsence } from '@backsight/usecases/people/absences';
import { enterMileage } from '@backsight/usecases/people/mileage';
import { addBar } from '@backsight/usecases/people/pairing';
import { closeForWeather } from '@backsight/usecases/schedule/closures';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { dayOf, hoursAfter, minutesAfter } from '../calendar.ts';
import { actorOf, byId, PEOPLE } from '../people.ts';
import type { Scene, Stage } from '../stage.ts';
import { OFFICE, OWNER, type DemoContext, type PlayedJob } from './context.ts';

/** What is noted about a job once it is booked. */
export function deskNotes(demo: DemoContext, stage: Stage, job: PlayedJob): void {
  const ahead = dayOf(job.startsAt) > demo.calendar.today;
  if (job.plan.n % 3 !== 0) stage.at(minutesAfter(stage.now(), 2), declinesLooks(job));
  if (ahead && job.plan.n % 4 === 1) stage.at(minutesAfter(stage.now(), 3), noraRidesAlong(demo, job));
  if (job.plan.role === 'conduct') stage.at(hoursAfter(job.endsAt, 24 * 6), keptAway(job));
  if (job.plan.role === 'legal') stage.at(hoursAfter(job.endsAt, 24 * 20), marked(job));
}

/** Most callers do not want to pay for a second look. */
const declinesLooks =
  ({ jobId }: PlayedJob): Scene =>
  async (stage) => {
    for (const { id } of await looksOfJob(stage.reader, jobId)) await stage.act(OFFICE, declineLook, { id });
  };

const RIDES = 3;

/** She watches where she does not go as one of the pair and is free. */
const noraRidesAlong =
  (demo: DemoContext, { visitId }: PlayedJob): Scene =>
  async (stage) => {
    if (demo.rides.length >= RIDES) return;
    const ride = { visitId, personId: PEOPLE.nora.id, reason: 'trainee' as const };
    const added = await stage.runner.run(addObserver, ride, { actor: OFFICE });
    if (added.ok) demo.rides.push(visitId);
  };

const keptAway =
  ({ jobId, second }: PlayedJob): Scene =>
  async (stage) => {
    const job = (await findJob(stage.reader, jobId))!;
    const reason = 'The owners complained about tone. They asked for somebody else next time.';
    await stage.act(OFFICE, addBar, { id: stage.newId(), personId: second, kind: 'property', aboutId: job.propertyId, reason });
  };

const marked =
  ({ jobId }: PlayedJob): Scene =>
  async (stage) => {
    const job = (await findJob(stage.reader, jobId))!;
    await stage.act(OWNER, markHouse, { id: job.propertyId, askOwner: 'A claim about this house is not settled yet.' });
  };

/** Working weeks for which miles are entered; one inspector puts it off. */
const DAYS_OF_MILES = 21;
const PUTS_IT_OFF = PEOPLE.curtis.id;

/** Each of the pair drives there; the miles of the day are entered in the evening. */
export async function milesAdd(demo: DemoContext, stage: Stage, job: PlayedJob): Promise<void> {
  const day = dayOf(job.startsAt);
  if (day < shiftDay(demo.calendar.today, -DAYS_OF_MILES)) return;
  const { lat, lon } = (await findDriveVisit(stage.reader, job.visitId))!;
  for (const personId of [job.first, job.second]) {
    if (personId === PUTS_IT_OFF) continue;
    const key = `${personId} ${day}`;
    const places = demo.places.get(key);
    if (places) places.push({ lat, lon });
    else {
      demo.places.set(key, [{ lat, lon }]);
      stage.at(demo.calendar.at(day, 18, 30), entersMiles(demo, { personId, day, key }));
    }
  }
}

const entersMiles =
  (demo: DemoContext, { personId, day, key }: { personId: string; day: string; key: string }): Scene =>
  async (stage) => {
    const [, lat, lon] = byId(personId).home;
    const planned = routeTenths({ lat, lon }, demo.places.get(key)!);
    const tenths = Math.round((planned * (101 + (planned % 9))) / 100);
    const driven = { tenths, odometerStart: null, odometerEnd: null, vehicleId: null };
    await stage.act(actorOf(byId(personId)), enterMileage, { ...driven, id: stage.newId(), personId, day, note: '' });
  };

/** Elio asks for two days off and the office agrees. */
export function elioAsks({ calendar }: DemoContext, stage: Stage): void {
  const id = stage.newId();
  const span = { startsAt: calendar.at(calendar.workday(12), 0), endsAt: calendar.at(shiftDay(calendar.workday(13), 1), 0) };
  stage.at(calendar.at(calendar.workday(-9), 16, 10), async (later) => {
    const asked = { id, personId: PEOPLE.elio.id, startsAt: span.startsAt.toISOString(), endsAt: span.endsAt.toISOString() };
    await later.act(actorOf(PEOPLE.elio), addAbsence, { ...asked, reason: 'a wedding in the family' });
  });
  stage.at(calendar.at(calendar.workday(-8), 8, 30), async (later) => {
    await later.act(OFFICE, decideAboutAbsence, { id, approve: true, reason: '', keepVisits: false });
  });
}

const ICE = [11, 12, 1, 2, 3];

/** The forecast for an afternoon ahead is bad: the office closes it, and the visits that are booked into it wait for their plan. */
export function closesForWeather({ calendar }: DemoContext, stage: Stage): void {
  const id = stage.newId();
  const day = calendar.workday(3);
  const reason = ICE.includes(Number(day.slice(5, 7))) ? 'Ice storm warning' : 'Thunderstorms with hail';
  const span = { startsAt: calendar.at(day, 11).toISOString(), endsAt: calendar.at(day, 18).toISOString() };
  stage.at(calendar.at(calendar.workday(-1), 16, 45), async (later) => {
    await later.act(OFFICE, closeForWeather, { ...span, id, outdoorOnly: false, towns: [], reason });
  });
}
