// Who of the pair takes what: by system, so that nobody walks a house twice, or balanced by the planned minutes. Changeable at any time.
import type { KnownAct } from './act.ts';
import { inOrder } from './inOrder.ts';

export type DividedStep = { system: string; minutes: number; partnerCheck: boolean };
export type Part = { system: string; person: string };

/** Planned minutes of what is divided, by system; partner checks are done by both and are left out. */
export function minutesBySystem(steps: readonly DividedStep[]): Map<string, number> {
  const minutes = new Map<string, number>();
  for (const { system, minutes: planned, partnerCheck } of steps)
    minutes.set(system, (minutes.get(system) ?? 0) + (partnerCheck ? 0 : planned));
  return minutes;
}

/** Outside and above go with the technical systems: they are reached by the same walk. */
const FIRSTS = ['arrival', 'roof', 'attic', 'electrical', 'heating', 'cooling', 'leaving'];

/**
 * By system: the first takes the technical systems, the second the house. By minutes: the longest system that is left goes to whoever has
 * fewer minutes (longest processing time first, Graham, "Bounds on multiprocessing timing anomalies", SIAM J. Appl. Math. 17 (1969) 416-429).
 * One person takes everything.
 */
export function divide(steps: readonly DividedStep[], pair: readonly string[], by: 'system' | 'minutes'): Part[] {
  const [first, second] = pair;
  const minutes = minutesBySystem(steps);
  const systems = [...minutes.keys()];
  if (first === undefined) return [];
  if (second === undefined) return systems.map((system) => ({ system, person: first }));
  if (by === 'system') return systems.map((system) => ({ system, person: FIRSTS.includes(system) ? first : second }));
  const load = new Map([
    [first, 0],
    [second, 0],
  ]);
  const given = new Map<string, string>();
  for (const system of [...systems].sort((a, b) => minutes.get(b)! - minutes.get(a)! || (a < b ? -1 : 1))) {
    const person = load.get(first)! <= load.get(second)! ? first : second;
    load.set(person, load.get(person)! + minutes.get(system)!);
    given.set(system, person);
  }
  return systems.map((system) => ({ system, person: given.get(system)! }));
}

/** Who has a system by the newest division; empty while nothing was divided. */
export function divisionOf(acts: readonly KnownAct[]): Map<string, string> {
  const last = inOrder(acts).findLast(({ act }) => act.do === 'divide');
  return new Map(last?.act.do === 'divide' ? last.act.parts.map(({ system, person }) => [system, person]) : []);
}

/** Planned minutes of each person. */
export const minutesOf = (parts: readonly Part[], steps: readonly DividedStep[]): Map<string, number> => {
  const bySystem = minutesBySystem(steps);
  const sums = new Map<string, number>();
  for (const { system, person } of parts) sums.set(person, (sums.get(person) ?? 0) + (bySystem.get(system) ?? 0));
  return sums;
};
