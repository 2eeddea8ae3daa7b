// Every clock of a callback: due, met when and by whom, overdue by how much, standing still; with the pauses, and what is the owner's alone.
import type { Role } from '@backsight/domain/people/roles';
import { isLegal } from '@backsight/domain/callbacks/words';
import { INJURY_SOURCE } from '@backsight/domain/callbacks/workInjury';
import { mayPause, maySlow } from '@backsight/domain/callbacks/pause';
import type { BusinessCalendar } from '@backsight/domain/shared/calendar';
import { businessTimeBetween } from '@backsight/domain/shared/deadline';
import { findCallback, type CallbackRow } from '@backsight/store/callbacks';
import { clocksOf, pausesOf, type ClockRow, type PauseRow } from '@backsight/store/callbacks/clocks';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { detailsOf } from '@backsight/store/callbacks/told';
import type { Reader } from '@backsight/store/database';
import { calendarOf } from '../firm/steps/calendar.ts';
import { isOwner, seesOpinions } from './steps/callback.ts';
import { answeredPaper, injuriesOf, sameDayOf } from './steps/legal.ts';

const MINUTE = 60_000;

/** Null when there is no such callback for this viewer. Notice to the insurer is for owner and lead inspector. */
export async function readClocks(reader: Reader, { id, roles, now }: { id: string; roles: readonly Role[]; now: Date }) {
  const callback = await findCallback(reader, id);
  if (!callback || (callback.ownerOnly && !isOwner(roles))) return null;
  const job = (await findJobForCallback(reader, callback.jobId))!;
  const calendar = await calendarOf(reader, job.officeId, now);
  const pauses = await pausesOf(reader, id);
  const open = pauses.find(({ untilAt }) => untilAt === null) ?? null;
  const rows = await clocksOf(reader, id);
  const running = rows.filter((row) => row.metAt === null && row.droppedAt === null);
  const inIso = ({ clock, startedAt, dueAt }: ClockRow) => ({ clock, startedAt: startedAt.toISOString(), dueAt: dueAt.toISOString() });
  return {
    clocks: rows.filter(({ clock }) => clock !== 'insurer' || seesOpinions(roles)).map((row) => clockNow(row, { open, calendar, now })),
    mayPause: mayPause({ state: callback.state, paused: open !== null, clocks: running.map(inIso) }, now.toISOString()).ok,
    paused: open !== null,
    pauses: pauses.map(({ fromAt, untilAt, ...pause }) => ({
      ...pause,
      fromAt: fromAt.toISOString(),
      untilAt: untilAt?.toISOString() ?? null,
      officeMinutes: minutes(fromAt, untilAt ?? now, calendar),
    })),
    ...(isOwner(roles) ? await ownersAlone(reader, callback) : {}),
  };
}

const minutes = (from: Date, to: Date, calendar: BusinessCalendar): number =>
  Math.floor(businessTimeBetween(from.toISOString(), to.toISOString(), calendar) / MINUTE);

type Now = { open: PauseRow | null; calendar: BusinessCalendar; now: Date };

/** A clock that stands still has no due instant until it goes on: `leftMinutes` is what is left of it. */
function clockNow({ clock, amount, unit, source, startedAt, dueAt, metAt, metBy, droppedAt }: ClockRow, { open, calendar, now }: Now) {
  const ended = metAt ?? droppedAt;
  const still = ended === null && open !== null && maySlow(clock) && dueAt > open.fromAt;
  const until = metAt ?? now;
  const late = droppedAt === null && !still && until > dueAt;
  return {
    ...{ clock, amount, unit, source, startedAt: startedAt.toISOString(), metBy },
    dueAt: dueAt.toISOString(),
    metAt: metAt?.toISOString() ?? null,
    droppedAt: droppedAt?.toISOString() ?? null,
    standsStill: still,
    overdueMinutes: late ? minutes(dueAt, until, calendar) : null,
    leftMinutes:
      ended === null && !late ? minutes(still && open.fromAt > startedAt ? open.fromAt : still ? startedAt : now, dueAt, calendar) : null,
  };
}

async function ownersAlone(reader: Reader, { id, kind, servedOn, serviceWay, deadlineOn }: CallbackRow) {
  const told = await detailsOf(reader, id);
  return {
    ...(isLegal(kind) ? { paper: { servedOn, serviceWay, deadlineOn, sameDay: sameDayOf(told), answered: answeredPaper(told) } } : {}),
    ...(kind === 'damage_or_injury' ? { injuries: injuriesOf(told), injurySource: INJURY_SOURCE } : {}),
  };
}
