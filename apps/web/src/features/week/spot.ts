// A visit in hand: where it would be put, and how keys and the pointer change that.
import { DateTime } from 'luxon';
import { inSteps, STEP, type Person, type Visit } from './geometry.ts';

/** A start and who goes; minutes of the firm's wall clock. */
export type Spot = { day: string; minute: number; first: string; second: string | null };
/** `carrier`: the one of the pair in whose row the visit is held. */
export type Held = { visit: Visit; carrier: string; was: Spot; spot: Spot };

const DAY = 1440;
const after = (day: string, count: number): string => DateTime.fromISO(day, { zone: 'utc' }).plus({ days: count }).toFormat('yyyy-MM-dd');

/** The next day that is shown, or the next of the calendar beyond them. */
function dayFrom(day: string, by: 1 | -1, days: readonly string[]): string {
  const at = days.indexOf(day);
  return (at < 0 ? undefined : days[at + by]) ?? after(day, by);
}

/** Gives the place of the carrier to somebody else; the partner and the carrier change places. */
export function withPerson(held: Held, id: string): Held {
  const { spot, carrier } = held;
  if (id === carrier) return held;
  const partner = spot.first === carrier ? spot.second : spot.first;
  if (id === partner) return { ...held, carrier: id };
  const next = spot.first === carrier ? { ...spot, first: id } : { ...spot, second: id };
  return { ...held, carrier: id, spot: next };
}

/** The nearest row up or down whose person is not the partner; the rows end at their ends. */
function rowFrom(held: Held, by: 1 | -1, people: readonly Pick<Person, 'id'>[]): Held {
  const { spot, carrier } = held;
  const partner = spot.first === carrier ? spot.second : spot.first;
  for (let at = people.findIndex(({ id }) => id === carrier) + by; at >= 0 && at < people.length; at += by)
    if (people[at]!.id !== partner) return withPerson(held, people[at]!.id);
  return held;
}

type Around = { days: readonly string[]; people: readonly Pick<Person, 'id'>[] };

/** What a key does to a visit in hand; null where it does nothing. */
export function byKey(held: Held, key: { key: string; shiftKey: boolean }, { days, people }: Around): Held | null {
  const { spot } = held;
  const later = (minutes: number): Held => ({
    ...held,
    spot: { ...spot, minute: Math.min(Math.max(inSteps(spot.minute + minutes), 0), DAY - STEP) },
  });
  const step = key.shiftKey ? 60 : STEP;
  switch (key.key) {
    case 'ArrowLeft':
      return later(-step);
    case 'ArrowRight':
      return later(step);
    case 'ArrowUp':
      return rowFrom(held, -1, people);
    case 'ArrowDown':
      return rowFrom(held, 1, people);
    case 'PageUp':
      return { ...held, spot: { ...spot, day: dayFrom(spot.day, -1, days) } };
    case 'PageDown':
      return { ...held, spot: { ...spot, day: dayFrom(spot.day, 1, days) } };
    default:
      return null;
  }
}

export const sameSpot = (a: Spot, b: Spot): boolean =>
  a.day === b.day && a.minute === b.minute && a.first === b.first && a.second === b.second;

/** Whether a person may take it in hand: it has not begun, and is not over. */
export const movable = (visit: Visit): boolean => visit.state === 'held' || visit.state === 'booked';

/** 'Tue, Dec 1, 9:15 AM, Ana and Ben'. */
export function saySpot({ day, minute, first, second }: Spot, name: (id: string) => string): string {
  const at = DateTime.fromISO(day, { zone: 'utc', locale: 'en-US' }).plus({ minutes: minute });
  return `${at.toFormat('ccc, LLL d, h:mm a')}, ${name(first)}${second ? ` and ${name(second)}` : ''}`;
}
