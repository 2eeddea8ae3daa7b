// Random firms and questions from a seed, booked so that no rule of time or driving is broken.
import { checkStart } from '@backsight/scheduling/checkStart';
import { wornPool } from '@backsight/scheduling/kit';
import { addDays } from '@backsight/scheduling/time';
import type { Busy, OutsideNeed, PersonInput, StartQuery, World } from '@backsight/scheduling/world';

export type Random = { unit: () => number; int: (below: number) => number; chance: (share: number) => boolean };

/** Small generator with 32 bits of state, equal on every machine (mulberry32). */
export function randomOf(seed: number): Random {
  let state = seed >>> 0;
  const unit = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let z = Math.imul(state ^ (state >>> 15), state | 1);
    z ^= z + Math.imul(z ^ (z >>> 7), z | 61);
    return ((z ^ (z >>> 14)) >>> 0) / 4_294_967_296;
  };
  return { unit, int: (below) => Math.floor(unit() * below), chance: (share) => unit() < share };
}

export const FIRST_DAY = '2026-03-06';
const KINDS = ['moisture meter', 'sewer camera'];
const ASKED = [...KINDS, 'camera of 60 m', 'respirator'];
const SIZES = ['M', 'L'];
const SKILLS = ['radon', 'pool', 'well'];

const place = (r: Random) => ({ lat: 44 + (r.unit() - 0.5) * 0.6, lon: -89 + (r.unit() - 0.5) * 0.8 });

function shiftsOf(r: Random, days: string[]): PersonInput['shifts'] {
  const start = 420 + r.int(5) * 15;
  return days
    .filter(() => !r.chance(0.25))
    .flatMap((day) =>
      r.chance(0.1)
        ? [
            { day, start, end: 720 },
            { day, start: 780, end: 1080 },
          ]
        : [{ day, start, end: start + 570 }],
    );
}

function offOf(r: Random, day: string): PersonInput['off'][number] {
  if (r.chance(0.3)) return { day, start: 0, end: 1440, why: 'vacation' };
  const start = 540 + r.int(24) * 15;
  return { day, start, end: start + 15 + r.int(5) * 15, why: 'dentist' };
}

function personOf(r: Random, id: string, days: string[]): PersonInput {
  const trainee = r.chance(0.15);
  const day = () => days[r.int(days.length)]!;
  return {
    id,
    name: `Person ${id}`,
    base: place(r),
    trainee,
    mayLead: r.chance(0.5),
    recentMinutes: r.int(3000),
    licensedUntil: r.chance(trainee ? 0.5 : 0.05) ? null : r.chance(0.1) ? day() : '2027-12-15',
    ...(r.chance(0.05) && { licensedFrom: day() }),
    qualifications: SKILLS.filter(() => r.chance(0.5)).map((key) => ({ key, until: r.chance(0.1) ? day() : null })),
    shifts: shiftsOf(r, days),
    off: days.filter(() => r.chance(0.15)).map((one) => offOf(r, one)),
    missingAcknowledgements: r.chance(0.1) ? [{ revision: 'revision 7', afterDay: day() }] : [],
    ...(r.chance(0.1) && { barredFrom: ['property-1'] }),
    ...(r.chance(0.9) && { sizes: { respirator: SIZES[r.int(SIZES.length)]! } }),
    ...(trainee && r.chance(0.4) && { unlicensedSecond: ['radon'] }),
  };
}

function outsideOf(r: Random, days: string[]): OutsideNeed {
  const busy = () => {
    const start = 480 + r.int(16) * 30;
    return { day: days[r.int(days.length)]!, start, end: start + 60 + r.int(8) * 30 };
  };
  const provider = (id: string) => ({
    id,
    name: `Provider ${id}`,
    offset: r.int(5) * 15,
    minutes: 30 + r.int(5) * 15,
    licensedUntil: r.chance(0.2) ? days[r.int(days.length)]! : null,
    insuredUntil: r.chance(0.2) ? days[r.int(days.length)]! : '2027-01-31',
    busy: Array.from({ length: r.int(6) }, busy),
  });
  return { service: 'Sewer camera', providers: Array.from({ length: 1 + r.int(2) }, (_one, at) => provider(`o${at}`)) };
}

export function randomQuery(r: Random, world: World, days: string[]): StartQuery {
  const some = (keys: string[], share: number) => keys.filter(() => r.chance(share));
  return {
    place: place(r),
    durationMinutes: 45 + r.int(12) * 15,
    crewSize: r.chance(0.85) ? 2 : 1,
    needEach: some(SKILLS, 0.04),
    needAny: some(SKILLS, 0.15),
    kit: some(ASKED, 0.15),
    ...(r.chance(0.6) && { roofWork: { offsetMinutes: r.int(240) } }),
    ...(r.chance(0.6) && { reportMinutes: r.int(11) * 15 }),
    ...(r.chance(0.25) && { outside: [outsideOf(r, days)] }),
    days,
    earliest: 420 + r.int(8) * 30,
    latestEnd: 900 + r.int(14) * 15,
    grid: r.chance(0.5) ? 15 : 30,
    ...(r.chance(0.4) && {
      wishes: {
        ...(r.chance(0.6) && { personId: world.people[r.int(world.people.length)]!.id }),
        ...(r.chance(0.2) && { days: days.filter(() => r.chance(0.5)) }),
        ...(r.chance(0.6) && ({ half: r.chance(0.5) ? 'morning' : 'afternoon' } as const)),
      },
    }),
    limit: 10_000,
    ...(r.chance(0.3) && { notBefore: { day: days[r.int(days.length)]!, minute: 400 + r.int(400) } }),
    // Central time springs forward on 8 March 2026.
    utcOffsetMinutesByDay: Object.fromEntries(days.map((day) => [day, day < '2026-03-08' ? -360 : -300])),
    involves: r.chance(0.5) ? ['property-1'] : [],
  };
}

/** Tries random visits and books those that break no rule. */
/** Now and then somebody comes along who has nothing else that half of the day. */
function observerOf(r: Random, world: World, at: { day: string; start: number; end: number; first: string; second: string | null }) {
  const one = world.people[r.int(world.people.length)]!;
  const near = (other: { day: string; start: number; end: number }) =>
    other.day === at.day && other.start < at.end + 60 && at.start < other.end + 60;
  const taken = world.busy.some((busy) => near(busy) && [...busy.personIds, ...(busy.observerIds ?? [])].includes(one.id));
  const free = one.id !== at.first && one.id !== at.second && !taken && !one.off.some(near);
  return free && r.chance(0.15) ? { observerIds: [one.id] } : {};
}

function fill(r: Random, world: World, days: string[], tries: number): Busy[] {
  const busy: Busy[] = [];
  for (let n = 0; n < tries; n++) {
    const asked = { ...randomQuery(r, world, days), roofWork: undefined };
    const [first, second] = [r.int(world.people.length), r.int(world.people.length)].map((at) => world.people[at]!.id) as [string, string];
    const choice = { day: days[r.int(days.length)]!, start: 420 + r.int(30) * 15, first, second: asked.crewSize === 2 ? second : null };
    if (checkStart({ ...world, busy }, asked, choice).length > 0) continue;
    const ids = choice.second === null ? [first] : [first, choice.second];
    busy.push({
      id: `v${n}`,
      personIds: ids,
      day: choice.day,
      start: choice.start,
      end: choice.start + asked.durationMinutes,
      place: asked.place,
      kit: asked.kit,
      ...(asked.reportMinutes && { reportMinutes: asked.reportMinutes }),
      ...observerOf(r, { ...world, busy }, { ...choice, end: choice.start + asked.durationMinutes }),
    });
  }
  return busy;
}

/** A firm of 4 to 9 people over a few days, with what is booked. */
export function randomWorld(r: Random, size = 5 + r.int(14), dayCount = 4, tries = 120): { world: World; days: string[] } {
  const days = Array.from({ length: dayCount }, (_one, at) => addDays(FIRST_DAY, at));
  const people = Array.from({ length: size }, (_one, at) => personOf(r, `p${String(at).padStart(3, '0')}`, days));
  const two = () => ({ a: people[r.int(size)]!.id, b: people[r.int(size)]!.id });
  const world: World = {
    people,
    busy: [],
    overtimeLimit: r.int(3) * 15,
    pairRules: Array.from(
      { length: r.int(3) },
      () => ({ kind: r.chance(0.75) ? 'never_together' : 'must_together', ...two() }) as const,
    ).filter((rule) => rule.a !== rule.b),
    kit: [
      ...KINDS.map((kind) => ({ kind, count: 1 + r.int(2), outOfService: r.chance(0.2) ? [{ from: days[1]!, count: 1 }] : [] })),
      { kind: 'camera of 60 m', of: 'sewer camera', count: r.int(2), outOfService: [] },
      ...SIZES.map((size) => ({ kind: wornPool('respirator', size), worn: 'respirator', count: r.int(6), outOfService: [] })),
    ],
    together: Array.from({ length: size }, () => ({ ...two(), day: addDays(FIRST_DAY, -1 - r.int(14)) })).filter((one) => one.a !== one.b),
  };
  return { world: { ...world, busy: fill(r, world, days, tries) }, days };
}
