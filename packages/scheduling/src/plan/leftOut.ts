// Why a visit is not in the plan, in words: what keeps everybody away, or which visit would have to give way.
import { missingKeys, personRules } from '../rules.ts';
import { sayTime } from '../time.ts';
import { membersOfColumn, visitsOfColumn } from './columns.ts';
import type { Column, Space } from './columns.ts';
import { daysOf } from './days.ts';
import type { PlanInput, PlanVisit } from './model.ts';
import { bindingWindow, startsOf } from './starts.ts';

/** What nobody can help: no start, too few people who may come, nobody with the papers, no kit. */
function hardReasons(input: PlanInput, visit: PlanVisit): string[] {
  const { from, until } = bindingWindow(input, visit);
  if (startsOf(input, visit).length === 0)
    return [`No start is possible: it would lie after ${sayTime(from)} and before ${sayTime(until)}.`];
  const days = daysOf(input);
  const working = input.people.filter((person) => person.shifts.some((shift) => days.includes(shift.day)));
  const kept = working.map((person) => personRules.find((rule) => rule.breaks(person, visit, input.day))?.say(person, visit, input.day));
  const able = working.filter((_, at) => kept[at] === undefined);
  if (able.length < visit.crewSize)
    return [...new Set(kept.filter((said) => said !== undefined))].slice(0, 5).concat('Too few people are left that day.');
  const missing = visit.needAny.filter((key) => able.every((person) => missingKeys(person, [key], input.day).length > 0));
  return missing.length > 0 ? [`Nobody who works that day holds: ${missing.join(', ')}.`] : [];
}

/** Placed visits each of which, left out, would let its own crew take this one. */
function couldGiveWay(space: Space, columns: readonly Column[], visit: number): number[] {
  const { routes, entries } = space;
  const crews = columns.map((column) => ({ visits: new Set(visitsOfColumn(space, column)), members: membersOfColumn(space, column) }));
  const found = new Set<number>();
  for (let route = 0; route < routes.count; route++) {
    const visits = [...routes.visits.subarray(routes.first[route], routes.first[route + 1])];
    if (!visits.includes(visit)) continue;
    const others = visits.filter((one) => one !== visit);
    for (const crew of crews) {
      if (crew.visits.size !== others.length + 1 || !others.every((one) => crew.visits.has(one))) continue;
      const could = crew.members.every((member) =>
        entries.member.subarray(entries.first[route], entries.first[route + 1]).includes(member),
      );
      if (could) for (const one of crew.visits) if (!others.includes(one)) found.add(one);
    }
  }
  return [...found].sort((a, b) => a - b);
}

/** Reasons for each visit that the columns leave out. */
export function reasonsLeftOut(space: Space, columns: readonly Column[]): { visitId: string; reasons: string[] }[] {
  const { tables } = space;
  const placed = new Set(columns.flatMap((column) => visitsOfColumn(space, column)));
  return tables.visits.flatMap((visit, at) => {
    if (placed.has(at)) return [];
    const hard = hardReasons(tables.input, visit);
    if (hard.length > 0) return [{ visitId: visit.id, reasons: hard }];
    const way = couldGiveWay(space, columns, at).map((one) => tables.visits[one]!.label);
    const free = way.length > 0 ? [`It fits when one of these is moved to another day: ${way.slice(0, 8).join('; ')}.`] : [];
    return [
      { visitId: visit.id, reasons: ['Everybody who could go is needed for other visits at the times when it could start.', ...free] },
    ];
  });
}
