// Callbacks of past jobs: drawn from the complaints, then played by the same acts as every other callback of the demo.
import { paysMoney, type RemedyKind } from '@backsight/domain/callbacks/words';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { chanceOf, type Chance } from '../chance.ts';
import {
  acknowledge,
  approve,
  carryOut,
  clear,
  close,
  conclude,
  lookInto,
  openCase,
  pay,
  propose,
  receive,
  setAside,
} from '../scripts/case.ts';
import type { Case } from '../scripts/case.ts';
import { OFFICE, type DemoContext, type PlayedJob } from '../scripts/context.ts';
import type { Stage } from '../stage.ts';
import { STARTER } from '../../starter/starter.ts';
import { COMPLAINTS, type Complaint } from './complaints.ts';
import type { Booked } from './jobRows.ts';
import type { PastJob } from './past.ts';
import type { Recorded } from './record.ts';

/** One job in so many comes back: about 60 of 2,500 (common practice). */
const ONE_IN = 41;

/** Cents that a lead inspector agrees to alone. */
const ALONE = STARTER.approvalLimits.find(({ role }) => role === 'lead_inspector')!.limitCents!;

export type CameBack = { booked: Booked; recordId: string; recorded: Recorded };

/** Whether anybody calls about this job. */
export const comesBack = ({ n }: PastJob): boolean => chanceOf(90_000 + n).odds(1 / ONE_IN);

/** Places every move of the callbacks on the stage. */
export function callbacksCome(demo: DemoContext, stage: Stage, jobs: readonly CameBack[]): void {
  for (const one of jobs) {
    const chance = chanceOf(190_000 + one.booked.job.n);
    const fits = COMPLAINTS.filter(({ step }) => step === undefined || one.recorded.has(step));
    plays(openCase(demo, stage, playedOf(one.booked), one.recordId), drawn(fits, chance), one.recorded, chance);
  }
}

function drawn(complaints: readonly Complaint[], chance: Chance): Complaint {
  let at = chance.next() * complaints.reduce((sum, { weight }) => sum + weight, 0);
  return complaints.find(({ weight }) => (at -= weight) < 0) ?? complaints[0]!;
}

/** Early calls are the commonest: the square of an even draw. */
const lagOf = ([from, to]: readonly [number, number], chance: Chance): number => Math.round(from + (to - from) * chance.next() ** 2);

const PAYEES: Partial<Record<RemedyKind, string>> = { independent_contractor: 'Osprey Roofing and Sheet Metal' };

function plays(c: Case, complaint: Complaint, recorded: Recorded, chance: Chance): void {
  const day = lagOf(complaint.lag, chance);
  const { system, place, words, sought, cause, step, conclusion, remedy, cost } = complaint;
  const cents = cost ? chance.between(cost[0] / 10, cost[1] / 10) * 1000 : 0;
  const discoveredOn = shiftDay(c.inspectedOn, Math.max(1, day - chance.between(0, 6)));
  c.on(
    day,
    9,
    receive(c, { speaker: 'client', kind: 'missed', system, place, words, remedySought: sought, discoveredOn }),
    chance.between(0, 50),
  );
  c.on(day, 13, acknowledge(c, 'Heard; asked for photos and to leave it as it is.'));
  c.on(day + 2, 9, lookInto(c, 'Record and report of the visit read.'));
  if (cents > 0) c.on(day + 2, 10, setAside(c, cents + 10_000, 'By what such work usually costs.'));
  const entry = step === undefined ? undefined : async () => recorded.get(step);
  c.on(day + 5, 9, conclude(c, cause, conclusion, step, entry));
  if (cents > 0) c.on(day + 6, 9, clear(c, 'owner_reason', 'Below the deductible; told the insurer for the file.'));
  const payee = paysMoney(remedy) ? (PAYEES[remedy] ?? c.job.caller.clients[0]!.name!) : '';
  const offered = propose(c, { kind: remedy, cents, payee, words: 'By the letter of the decision.' });
  c.on(day + 6, 11, offered.scene);
  if (cents > 0) ends(c, day, cents, offered.remedyId);
  else c.on(day + 8, 10, carryOut(offered.remedyId, 'Sent with the page of the report.', OFFICE));
  c.on(day + 16, 10, close(c, 'Settled; no further word.'));
}

function ends(c: Case, day: number, cents: number, remedyId: () => string): void {
  if (cents > ALONE) c.on(day + 7, 9, approve(remedyId, 'Agreed.'));
  c.on(day + 11, 9, pay(remedyId));
  c.on(day + 11, 10, setAside(c, 0, 'Settled for less.'));
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
