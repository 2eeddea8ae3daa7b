// Brute force: every start on the grid and every crew, judged and scored from the raw bookings with none of the engine's code.
import { estimatedTravel } from '@backsight/scheduling/travel';
import { sunsetMinute } from '@backsight/scheduling/daylight';
import type { Busy, PersonInput, StartQuery, World } from '@backsight/scheduling/world';
import { outsideComes, unlicensed } from './oracleRules.ts';
import { writesInTime } from './oracleWriting.ts';

export type OracleStart = { day: string; start: number; crew: string[]; first: string[]; score: number };

const minutes = estimatedTravel.minutes;
const quarter = (value: number) => Math.round(value * 4) / 4;
const short = (gap: number) => (gap >= 15 && gap < 180 ? quarter(gap * 0.25) : 0);
const dayIndex = (day: string) => Date.parse(`${day}T00:00:00Z`) / 86_400_000;
const key = (ids: string[]) => [...ids].sort().join('+');

function mayCome(p: PersonInput, q: StartQuery, day: string): boolean {
  if (!unlicensed(p) && (p.licensedUntil === null || day > p.licensedUntil || (p.licensedFrom !== undefined && day < p.licensedFrom)))
    return false;
  if (q.only && !q.only.includes(p.id)) return false;
  if (
    q.needEach.some(
      (need) =>
        !(unlicensed(p) && p.unlicensedSecond!.includes(need)) &&
        !p.qualifications.some((one) => one.key === need && (one.until ?? '9999-12-31') >= day),
    )
  )
    return false;
  if (p.missingAcknowledgements.some((one) => one.afterDay < day)) return false;
  if ((p.barredFrom ?? []).some((id) => q.involves?.includes(id))) return false;
  return !(q.crewSize === 1 && p.trainee);
}

/** Added driving and start-dependent cost of one person, or null when he cannot be there. */
function presence(w: World, q: StartQuery, p: PersonInput, day: string, s: number): { fixed: number; moving: number } | null {
  const e = s + q.durationMinutes;
  const shift = p.shifts.find((one) => one.day === day && one.start <= s && e <= one.end);
  if (!shift) return null;
  const events = [
    ...w.busy
      .filter((one) => one.day === day && (one.personIds.includes(p.id) || one.observerIds?.includes(p.id)))
      .map((one) => ({ s: one.start, e: one.end, at: one.place })),
    ...p.off.filter((one) => one.day === day).map((one) => ({ s: one.start, e: one.end, at: p.base })),
  ];
  if (events.some((one) => one.s < e && s < one.e)) return null;
  let prev = { e: shift.start, at: p.base };
  let next: { s: number; at: typeof p.base } | null = null;
  let homeBy = shift.end + (w.overtimeLimit ?? 0);
  let ready = shift.start;
  for (const one of events) {
    if (one.e <= s && one.e > shift.start && one.e > prev.e) prev = one;
    if (one.e <= shift.start) ready = Math.max(ready, one.e + minutes(one.at, p.base));
    if (one.s >= e && one.s < shift.end && (next === null || one.s < next.s)) next = one;
    if (one.s >= shift.end) homeBy = Math.min(homeBy, one.s - minutes(p.base, one.at));
  }
  if (prev.e === shift.start) prev = { e: ready, at: p.base };
  const target = next?.at ?? p.base;
  const out = minutes(prev.at, q.place);
  const back = minutes(q.place, target);
  if (prev.e + out > s || e + back > (next?.s ?? homeBy)) return null;
  const before = next ? 0 : Math.max(0, prev.e + minutes(prev.at, target) - shift.end);
  const overtime = next ? 0 : Math.max(0, e + back - shift.end - before);
  const idle = short(s - prev.e - out) + short((next?.s ?? shift.end) - back - e);
  return { fixed: out + back - minutes(prev.at, target), moving: idle + quarter(1.5 * overtime) };
}

function pairAllowed(w: World, a: PersonInput, b: PersonInput | null): boolean {
  const lead = (p: PersonInput) => p.mayLead && !p.trainee;
  if (b && !lead(a) && !lead(b)) return false;
  for (const [x, y] of b
    ? ([
        [a, b],
        [b, a],
      ] as const)
    : ([[a, null]] as const)) {
    const tied = w.pairRules
      .filter((r) => r.kind === 'must_together' && [r.a, r.b].includes(x.id))
      .flatMap((r) => [r.a, r.b].filter((id) => id !== x.id));
    if (tied.length > 0 && !(y && tied.includes(y.id))) return false;
    if (y && w.pairRules.some((r) => r.kind === 'never_together' && r.a === x.id && r.b === y.id)) return false;
  }
  return true;
}

function kitLeft(w: World, q: StartQuery, crew: string[], day: string): boolean {
  const pieces = (kind: string) => {
    const pool = w.kit.find((one) => one.kind === kind);
    let left = pool?.count ?? 0;
    for (const out of pool?.outOfService ?? []) if (out.from <= day && day <= (out.until ?? '9999-12-31')) left -= out.count;
    return left;
  };
  const today = w.busy.filter((one) => one.day === day);
  const sizeOf = (id: string, kind: string) => w.people.find((p) => p.id === id)?.sizes?.[kind] ?? 'none';
  // Worn: each person of the day who wears the kind, once; a bipartite count by size.
  const worn = (kind: string) =>
    crew.every((id) => {
      const size = sizeOf(id, kind);
      const wearers = [...crew, ...today.filter((one) => one.kit.includes(kind)).flatMap((one) => one.personIds)];
      const same = new Set(wearers.filter((one) => sizeOf(one, kind) === size));
      return same.size <= pieces(`${kind}, size ${size}`);
    });
  return q.kit.every((kind) => {
    if (w.kit.some((one) => one.worn === kind)) return worn(kind);
    const pool = w.kit.find((one) => one.kind === kind);
    if (!pool) return false;
    if (pool.of) {
      const whole = w.kit.filter((one) => one.of === pool.of).map((one) => one.kind);
      const all = new Set([
        key(crew),
        ...today.filter((one) => one.kit.some((x) => x === pool.of || whole.includes(x))).map((one) => key(one.personIds)),
      ]);
      if (all.size > pieces(pool.of)) return false;
    }
    const longer = w.kit.filter((one) => one.of === kind).map((one) => one.kind);
    const crews = new Set([
      key(crew),
      ...today.filter((one) => one.kit.some((x) => x === kind || longer.includes(x))).map((one) => key(one.personIds)),
    ]);
    return crews.size <= pieces(kind);
  });
}

function rotation(w: World, a: string, b: string, day: string): number {
  const days = [
    ...(w.together ?? []).filter((one) => key([one.a, one.b]) === key([a, b])).map((one) => one.day),
    ...w.busy.filter((one: Busy) => key(one.personIds) === key([a, b])).map((one) => one.day),
  ].map((one) => Math.abs(dayIndex(one) - dayIndex(day)));
  if (days.length === 0 || days.includes(0)) return 0;
  return Math.max(0, 12 - Math.min(...days));
}

/** Every start that breaks no rule, with its score and who may go first then. */
export function allStarts(w: World, q: StartQuery): OracleStart[] {
  const list: OracleStart[] = [];
  const least = Math.min(...w.people.filter((p) => p.licensedUntil !== null).map((p) => p.recentMinutes));
  const fairness = (p: PersonInput) => quarter(0.01 * Math.max(0, p.recentMinutes - least));
  const covers = (crew: PersonInput[], day: string) =>
    q.needAny.every((need) =>
      crew.some(
        (p) =>
          (unlicensed(p) && p.unlicensedSecond!.includes(need)) ||
          p.qualifications.some((one) => one.key === need && (one.until ?? '9999-12-31') >= day),
      ),
    );
  for (const day of q.days) {
    for (let s = 0; s + q.durationMinutes <= q.latestEnd; s += q.grid) {
      if (s < q.earliest || (q.notBefore && (day < q.notBefore.day || (day === q.notBefore.day && s < q.notBefore.minute)))) continue;
      if (q.roofWork && s + q.roofWork.offsetMinutes > sunsetMinute(q.place, day, q.utcOffsetMinutesByDay[day]!)) continue;
      if (!outsideComes(q, day, s)) continue;
      const here = w.people
        .filter((p) => mayCome(p, q, day))
        .flatMap((p) => {
          const at = presence(w, q, p, day, s);
          return at ? [{ p, at }] : [];
        });
      const half = q.wishes?.half && q.wishes.half !== (s < 720 ? 'morning' : 'afternoon') ? 15 : 0;
      const wish = half + (q.wishes?.days && !q.wishes.days.includes(day) ? 15 : 0);
      here.forEach((one, i) => {
        for (const two of q.crewSize === 1 ? [null] : here.slice(i + 1)) {
          const crew = two ? [one.p, two.p] : [one.p];
          const ids = crew.map((p) => p.id);
          if (!pairAllowed(w, one.p, two?.p ?? null) || !covers(crew, day) || !kitLeft(w, q, ids, day)) continue;
          const first = crew.filter(
            (p) => (two === null || (p.mayLead && !p.trainee)) && writesInTime(w, q, { crew, first: p, day, start: s }),
          );
          if (first.length === 0) continue;
          const own = [one, ...(two ? [two] : [])].reduce((sum, x) => sum + x.at.fixed + x.at.moving + fairness(x.p), 0);
          const wished = q.wishes?.personId !== undefined && !ids.includes(q.wishes.personId) ? 20 : 0;
          const goes = first.map((p) => p.id).sort();
          list.push({
            day,
            start: s,
            crew: ids.sort(),
            first: goes,
            score: own + wish + wished + (two ? rotation(w, one.p.id, two.p.id, day) : 0),
          });
        }
      });
    }
  }
  return list;
}
