// One mail to each inspector whose day an accepted plan changes, with all his changes.
import { wallTime } from '@backsight/domain/schedule/wallClock';
import { sayDay, sayTime } from '@backsight/scheduling/time';
import { findPerson } from '@backsight/store/people';
import type { Work } from '../../run.ts';
import type { Written } from './writeMoves.ts';

type Crew = { first: string; second: string | null };
const crewOf = (crew: Crew | null): string[] => (crew === null ? [] : [crew.first, crew.second].filter((id) => id !== null));
const alongOf = ({ stay, left }: Written['along']): string[] => [...stay, ...left].map(({ personId }) => personId);
const when = (at: Date, zone: string): string => {
  const { day, minute } = wallTime(at, zone);
  return `${sayDay(day)}, ${sayTime(minute)}`;
};

/** `key` makes the mail of this acceptance unique for ever. */
export async function tellCrews(
  work: Work,
  written: readonly Written[],
  ask: { planId: string; key: string; zone: string },
): Promise<number> {
  const ids = [...new Set(written.flatMap(({ was, to, along }) => [...crewOf(was), ...crewOf(to), ...alongOf(along)]))].sort();
  const people = new Map(await Promise.all(ids.map(async (id) => [id, await findPerson(work.tx, id)] as const)));
  const name = (id: string): string => people.get(id)?.name ?? 'somebody';
  for (const id of ids) {
    const person = people.get(id);
    const lines = written.flatMap((one) => lineFor(id, one, name, ask.zone));
    if (!person || lines.length === 0) continue;
    await work.mail({
      messageKey: `plan:${ask.planId}:${ask.key}:${id}`,
      toAddress: person.email,
      toName: person.name,
      subject: lines.length === 1 ? 'One of your visits changed' : `${lines.length} of your visits changed`,
      body: `${person.name},\n\nyour visits were planned anew:\n\n${lines.map((line) => `- ${line}`).join('\n')}\n\nEverything else of these days stays as it was. Your day is on the page My day.\n`,
      aboutKind: 'plan',
      aboutId: ask.planId,
    });
  }
  return ids.length;
}

/** Who comes along is told of another time, and when it is over. */
function alongLine(id: string, { move, was, to, along }: Written, zone: string): string[] {
  if (along.left.some(({ personId }) => personId === id))
    return [`${move.label}: you no longer come along (was ${when(was.startsAt, zone)}).`];
  const stays = along.stay.some(({ personId }) => personId === id) && to!.startsAt.getTime() !== was.startsAt.getTime();
  return stays ? [`${move.label}: you come along, now ${when(to!.startsAt, zone)} (was ${when(was.startsAt, zone)}).`] : [];
}

function lineFor(id: string, one: Written, name: (id: string) => string, zone: string): string[] {
  const { move, was, to } = one;
  const goes = crewOf(to).includes(id);
  const went = crewOf(was).includes(id);
  const partners = (crew: Crew): string => {
    const others = crewOf(crew).filter((one) => one !== id);
    return others.length === 0 ? 'alone' : `with ${others.map(name).join(' and ')}`;
  };
  if (!goes && !went) return alongLine(id, one, zone);
  if (!goes) return [`${move.label}, ${when(was.startsAt, zone)}: no longer yours.`];
  const now = `${when(to!.startsAt, zone)}, ${partners(to!)}${to!.first === id ? ', you go first' : ''}`;
  if (!went) return [`${move.label}: new for you, ${now}.`];
  const before = `${when(was.startsAt, zone)}, ${partners(was)}${was.first === id ? ', you went first' : ''}`;
  return [`${move.label}: now ${now} (was ${before}).`];
}
