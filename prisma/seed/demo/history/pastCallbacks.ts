// Callbacks of past jobs: drawn from the complaints, then played by the same acts as every other callback of the demo.
import { paysMoney, type RemedyKind } from '@backsight/domain/callbacks/words';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { chanceOf, type Chance } from '../chance.ts';
import {
  acknowledge,
  approve,
  askAgain,
  carryOut,
  clear,
  close,
  conclude,
  lookInto,
  openCase,
  pay,
  notify,
  propose,
  receive,
  recover,
  setAside,
} from '../scripts/case.ts';
import type { Case } from '../scripts/case.ts';
import { OFFICE, OWNER, type DemoContext, type PlayedJob } from '../scripts/context.ts';
import type { Stage } from '../stage.ts';
import { actorOf, byId } from '../people.ts';
import { STARTER } from '../../starter/starter.ts';
import { COMPLAINTS, RARE, type Complaint } from './complaints.ts';
import type { Booked } from './jobRows.ts';
import { CELLAR_STEP, type Lesson } from './lesson.ts';
import type { PastJob } from './past.ts';
import type { Recorded } from './record.ts';

/** One job in so many comes back: about 75 of 2,500 (common practice). Which of them, is drawn. */
const ONE_IN = 34;
/** Where some lie, counted in such groups from the beginning: late claims among the first, water in cellars until the firm learnt from it. */
const PLACED: ReadonlyMap<number, Complaint> = new Map([
  ...[3, 6, 10, 17, 21, 29, 36].map((group, at) => [group, RARE[at % RARE.length]!] as const),
  ...[1, 2, 4, 7, 9, 12, 14, 16, 19, 22].map((group) => [group, COMPLAINTS.find(({ step }) => step === CELLAR_STEP)!] as const),
]);

/** Cents that a lead inspector agrees to alone, and that the firm pays itself of a loss. */
const ALONE = STARTER.approvalLimits.find(({ role }) => role === 'lead_inspector')!.limitCents!;
const DEDUCTIBLE = 250_000;

export type CameBack = { booked: Booked; recordId: string; recorded: Recorded };

/** Days after closing on which it is asked whether it held: some days after it is due, so that of the newest a few wait. */
const ASKED_AFTER = [33, 47] as const;
const HELD = 'Called: nothing new since.';
const NOBODY = 'Called twice and written once; no answer.';

const groupOf = (n: number): number => Math.floor(n / ONE_IN);

/** Whether anybody calls about this job. */
export const comesBack = ({ n }: PastJob): boolean => n % ONE_IN === chanceOf(90_000 + groupOf(n)).between(0, ONE_IN - 1);

/** Places every move of the callback on the stage. */
export function callbackComes(demo: DemoContext, stage: Stage, { booked, recordId, recorded }: CameBack, lesson: Lesson): void {
  const { n, day } = booked.job;
  const chance = chanceOf(190_000 + n);
  const fits = ({ step }: Complaint): boolean => step === undefined || (recorded.has(step) && lesson.failsOn(step, day));
  const placed = PLACED.get(groupOf(n));
  const complaint = placed && fits(placed) ? placed : drawn(COMPLAINTS.filter(fits), chance);
  const c = openCase(demo, stage, playedOf(booked), recordId);
  if (complaint.kind === 'question') asks(c, complaint, chance);
  else if (complaint.kind === 'near_miss') nearlyHappened(c, complaint, chance);
  else plays(c, complaint, { recorded, chance, lesson });
}

function drawn(complaints: readonly Complaint[], chance: Chance): Complaint {
  let at = chance.next() * complaints.reduce((sum, { weight }) => sum + weight, 0);
  return complaints.find(({ weight }) => (at -= weight) < 0) ?? complaints[0]!;
}

/** Early calls are the commonest: the square of an even draw. */
const lagOf = ([from, to]: readonly [number, number], chance: Chance): number => Math.round(from + (to - from) * chance.next() ** 2);

const PAYEES: Partial<Record<RemedyKind, string>> = { independent_contractor: 'Osprey Roofing and Sheet Metal' };

/** What is said at the intake, on the day of the call. */
function told(c: Case, { system, place, words, sought, kind = 'missed', speaker = 'client' }: Complaint, discoveredDay: number | null) {
  const discovered = discoveredDay === null ? {} : { discoveredOn: shiftDay(c.inspectedOn, Math.max(1, discoveredDay)) };
  return { speaker, kind, system, place, words, remedySought: sought, ...discovered };
}

function asks(c: Case, complaint: Complaint, chance: Chance): void {
  const day = lagOf(complaint.lag, chance);
  c.on(day, 9, receive(c, told(c, complaint, null)), chance.between(0, 50));
  c.on(day, 13, acknowledge(c, complaint.conclusion));
  c.on(day, 14, close(c, 'Answered.', OFFICE));
}

function nearlyHappened(c: Case, complaint: Complaint, chance: Chance): void {
  c.on(1, 9, receive(c, told(c, complaint, null), actorOf(byId(c.job.first))), chance.between(0, 50));
  c.on(2, 9, conclude(c, complaint.cause, complaint.conclusion, complaint.step));
  c.on(4, 9, close(c, 'Told to everybody on Monday morning.'));
}

type With = { recorded: Recorded; chance: Chance; lesson: Lesson };

function plays(c: Case, complaint: Complaint, { recorded, chance, lesson }: With): void {
  const day = lagOf(complaint.lag, chance);
  const { cause, step, conclusion, remedy, cost, firstGuess } = complaint;
  const cents = cost ? chance.between(cost[0] / 10, cost[1] / 10) * 1000 : 0;
  c.on(day, 9, receive(c, told(c, complaint, day - chance.between(0, 6))), chance.between(0, 50));
  c.on(day, 13, acknowledge(c, 'Heard; asked for photos and to leave it as it is.'));
  if (firstGuess) c.on(day + 1, 9, setAside(c, firstGuess * 100, 'A first guess, before anybody has looked.', OWNER));
  c.on(day + 2, 9, lookInto(c, 'Record and report of the visit read.'));
  if (cents > 0) c.on(day + 2, 10, setAside(c, cents + 10_000, 'By what such work usually costs.', OWNER));
  else if (firstGuess) c.on(day + 6, 9, setAside(c, 0, 'Nothing of it is ours.', OWNER));
  const entry = step === undefined ? undefined : async () => recorded.get(step);
  c.on(day + 5, 9, async (stage) => {
    await conclude(c, cause, conclusion, step, entry)(stage);
    lesson.concluded(step, c.id);
  });
  if (cents > 0) clears(c, complaint, day);
  const payee = paysMoney(remedy) ? (PAYEES[remedy] ?? c.job.caller.clients[0]!.name!) : '';
  const offered = propose(c, { kind: remedy, cents, payee, words: 'By the letter of the decision.' });
  c.on(day + 6, 11, offered.scene);
  if (cents > 0) ends(c, complaint, { day, cents, remedyId: offered.remedyId });
  else c.on(day + 8, 10, carryOut(offered.remedyId, 'Sent with the page of the report.', OFFICE));
  const closedOn = day + (complaint.recovered ? 60 : 16);
  c.on(closedOn, 10, close(c, 'Settled; no further word.'));
  c.on(closedOn + chance.between(...ASKED_AFTER), 11, chance.odds(0.85) ? askAgain(c, 'held', HELD) : askAgain(c, 'not_reached', NOBODY));
}

function clears(c: Case, { recovered }: Complaint, day: number): void {
  if (recovered) {
    c.on(day + 5, 11, notify(c, 'The report of the engineer, the record and the photos of the visit. Receipt confirmed.', OWNER));
    c.on(day + 6, 9, clear(c, 'insurer_consent', 'The claim desk agrees to pay the contractor and to settle above the deductible.'));
  } else c.on(day + 6, 9, clear(c, 'owner_reason', 'Below the deductible; told the insurer for the file.'));
}

type Paid = { day: number; cents: number; remedyId: () => string };

function ends(c: Case, { recovered }: Complaint, { day, cents, remedyId }: Paid): void {
  if (cents > ALONE) c.on(day + 7, 9, approve(remedyId, 'Agreed.'));
  c.on(day + 11, 9, pay(remedyId));
  c.on(day + 11, 10, setAside(c, 0, 'Settled for less.', OWNER));
  if (recovered)
    c.on(day + 52, 9, recover(c, Math.min(recovered * 100, cents - DEDUCTIBLE), 'What the insurer owes above the deductible.'));
}

/** A past job as the scripts of the callbacks know a played one. */
const playedOf = ({ job, jobId, number, visitId, startsAt, endsAt, caller, feeCents }: Booked): PlayedJob => ({
  ...{ jobId, number, visitId, startsAt, endsAt, caller, first: job.first.id, second: job.second.id, totalCents: feeCents },
  ...{ place: { lat: job.home.lat, lon: job.home.lon }, facts: job.home.facts, agreementId: '', invoiceId: '' },
  plan: {
    n: job.n,
    day: job.day,
    half: 'morning',
    bookedAt: startsAt,
    fate: 'goes_through',
    role: 'none',
    terms: 'due_at_visit',
    chance: job.chance,
    covers: null,
  },
});
