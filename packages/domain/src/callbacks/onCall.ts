// Who is on call, and who is alerted next when somebody may be in danger.
import { DateTime } from 'luxon';
import type { Role } from '../people/roles.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

/**
 * Somebody is on call (`on`), or as an exception not, on these ISO weekdays from a minute of the local day until another; one that ends no
 * later than it starts runs into the next day, and belongs to the day on which it starts. Days are ISO days, both included.
 */
export type Duty = {
  personId: string;
  on: boolean;
  position: number;
  weekdays: readonly number[];
  startMinute: number;
  endMinute: number;
  fromDay: string;
  untilDay: string | null;
};
export type OnCallPerson = { id: string; roles: readonly Role[] };
export type OnCallFacts = { people: readonly OnCallPerson[]; duties: readonly Duty[]; absent: ReadonlySet<string>; zone: string };

function covers(duty: Duty, local: DateTime): boolean {
  const minute = local.hour * 60 + local.minute;
  const overNight = duty.endMinute <= duty.startMinute;
  const starts = (day: DateTime): boolean => {
    const iso = day.toFormat('yyyy-MM-dd');
    return duty.weekdays.includes(day.weekday) && duty.fromDay <= iso && (duty.untilDay === null || iso <= duty.untilDay);
  };
  if (!overNight) return starts(local) && duty.startMinute <= minute && minute < duty.endMinute;
  return (minute >= duty.startMinute && starts(local)) || (minute < duty.endMinute && starts(local.minus({ days: 1 })));
}

/** Who is on call at an instant, in order; never one who is away. */
export function onCallAt({ people, duties, absent, zone }: OnCallFacts, at: string): string[] {
  const local = DateTime.fromISO(at, { zone });
  const now = duties.filter((duty) => covers(duty, local));
  const off = new Set(now.filter(({ on }) => !on).map(({ personId }) => personId));
  const there = new Set(people.map(({ id }) => id));
  const found = now
    .filter(({ on, personId }) => on && !off.has(personId) && !absent.has(personId) && there.has(personId))
    .toSorted((a, b) => a.position - b.position || (a.personId < b.personId ? -1 : 1));
  return [...new Set(found.map(({ personId }) => personId))];
}

const having = (people: readonly OnCallPerson[], role: Role): string[] =>
  people.filter(({ roles }) => roles.includes(role)).map(({ id }) => id);

/** In which order people are alerted: who is on call, then the owners; without anybody on call the owners, then the leads. Of what only owners see, owners. */
export function chainAt(facts: OnCallFacts, at: string, ownerOnly: boolean): string[] {
  const owners = having(facts.people, 'owner');
  const onCall = onCallAt(facts, at).filter((id) => !ownerOnly || owners.includes(id));
  const rest = onCall.length > 0 || ownerOnly ? owners : [...owners, ...having(facts.people, 'lead_inspector')];
  return [...new Set([...onCall, ...rest])];
}

/** Whoever of the chain was alerted least, the first of them: so it goes round, also when the list changes meanwhile. Null for an empty chain. */
export function nextToAlert(chain: readonly string[], alerted: readonly string[]): string | null {
  const times = (id: string): number => alerted.filter((one) => one === id).length;
  const least = Math.min(...chain.map(times));
  return chain.find((id) => times(id) === least) ?? null;
}

const STEP_MINUTES = 15;

/** Spans of the coming 24 hours, to the quarter of an hour, in which nobody is on call. Instants are ISO in UTC. */
export function uncovered(facts: OnCallFacts, now: string): { from: string; to: string }[] {
  const start = DateTime.fromISO(now, { zone: 'utc' }).startOf('minute');
  const first = start.minus({ minutes: start.minute % STEP_MINUTES });
  const gaps: { from: string; to: string }[] = [];
  for (let step = 0; step < (24 * 60) / STEP_MINUTES; step += 1) {
    const [from, to] = [step, step + 1].map((n) => first.plus({ minutes: n * STEP_MINUTES }).toISO()!) as [string, string];
    if (onCallAt(facts, from).length > 0) continue;
    const last = gaps.at(-1);
    if (last?.to === from) last.to = to;
    else gaps.push({ from, to });
  }
  return gaps;
}

export function checkDuty(duty: Duty, person: { endedOn: string | null } | null): Outcome<null> {
  if (!person || person.endedOn !== null) return refuse('not-found', { thing: 'person' }, 'personId');
  if (duty.weekdays.length === 0) return refuse('on-call-no-day', {}, 'weekdays');
  return duty.untilDay !== null && duty.untilDay < duty.fromDay ? refuse('days-backwards', {}, 'untilDay') : accept(null);
}
