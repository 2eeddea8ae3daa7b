// The search against brute force on random firms, and what must stay true whatever is booked.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkStart } from '@backsight/scheduling/checkStart';
import { explainDay } from '@backsight/scheduling/explainDay';
import { findStarts } from '@backsight/scheduling/findStarts';
import type { StartOption, StartQuery, World } from '@backsight/scheduling/world';
import { allStarts } from './oracle.ts';
import type { OracleStart } from './oracle.ts';
import { randomOf, randomQuery, randomWorld } from './randomWorld.ts';
import { size } from '../../support/size.ts';

const RUNS = { numRuns: size(40, 120), seed: 20_260_713 };

/** A firm and a question with what the search and brute force answer: made once for all properties, because that is most of the work. */
type Case = { world: World; query: StartQuery; found: () => ReturnType<typeof findStarts>; all: () => OracleStart[] };

/** Nobody may change what others are asked about. */
function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) Object.values(Object.freeze(value)).forEach(frozen);
  return value;
}

function once<T>(make: () => T): () => T {
  let made: { value: T } | undefined;
  return () => (made ??= { value: frozen(make()) }).value;
}

const cases = new Map<number, Case>();

function caseOf(seed: number): Case {
  const r = randomOf(seed);
  const { world, days } = randomWorld(r);
  const asked = frozen({ world, query: randomQuery(r, world, days) });
  const { query } = asked;
  return { ...asked, found: once(() => findStarts(world, query)), all: once(() => allStarts(world, query)) };
}

/** A property over random firms and questions. */
const always = (claim: (one: Case) => void): void =>
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 2 ** 31 - 1 }), (seed) => {
      const one = cases.get(seed) ?? caseOf(seed);
      cases.set(seed, one);
      claim(one);
    }),
    RUNS,
  );

const bestByDay = (list: readonly { day: string; score: number }[]): Record<string, number> => {
  const best: Record<string, number> = {};
  for (const one of list) best[one.day] = Math.min(best[one.day] ?? Infinity, one.score);
  return best;
};

const crewOf = (option: StartOption): string[] => (option.second === null ? [option.first] : [option.first, option.second].sort());

const nameOf = (one: { day: string; start: number; crew: string[] }): string => `${one.day} ${one.start} ${one.crew.join('+')}`;

const book = (world: World, query: StartQuery, option: StartOption): World => ({
  ...world,
  busy: [
    ...world.busy,
    {
      id: 'booked',
      personIds: [option.first, ...(option.second ? [option.second] : [])],
      day: option.day,
      start: option.start,
      end: option.end,
      place: query.place,
      kit: query.kit,
      reportMinutes: query.reportMinutes ?? 0,
    },
  ],
});

/** The best few crews of each half of a day, each at its best start. */
function bestCrews(starts: readonly OracleStart[]): string[] {
  const byHalf = new Map<string, OracleStart[]>();
  for (const one of starts) {
    const half = `${one.day} ${one.start < 720 ? 'morning' : 'afternoon'}`;
    byHalf.set(half, [...(byHalf.get(half) ?? []), one]);
  }
  const rank = (x: OracleStart, y: OracleStart) => x.score - y.score || x.start - y.start || (x.crew.join('+') < y.crew.join('+') ? -1 : 1);
  return [...byHalf.values()]
    .flatMap((list) => {
      const seen = new Set<string>();
      const crews = list.sort(rank).filter((one) => !seen.has(one.crew.join('+')) && seen.add(one.crew.join('+')));
      return crews.slice(0, 4).map((one) => `${nameOf(one)} ${one.score}`);
    })
    .sort();
}

describe('findStarts against brute force', () => {
  it('offers the same days with the same best score, and the same crews of each half day', () => {
    let offered = 0;
    let blocked = 0;
    always(({ query, found, all }) => {
      const { options, blockedDays } = found();
      expect(bestByDay(options)).toEqual(bestByDay(all()));
      expect(options.map((one) => `${nameOf({ ...one, crew: crewOf(one) })} ${one.score}`).sort()).toEqual(bestCrews(all()));
      const may = new Map(all().map((one) => [nameOf(one), one.first]));
      expect(options.filter((one) => !may.get(nameOf({ ...one, crew: crewOf(one) }))?.includes(one.first))).toEqual([]);
      expect([...new Set(options.map((one) => one.day)), ...blockedDays.map((one) => one.day)].sort()).toEqual([...query.days].sort());
      offered += options.length;
      blocked += blockedDays.length;
    });
    expect(offered).toBeGreaterThan(500);
    expect(blocked).toBeGreaterThan(50);
  });

  it('the parts of every score add up to it', () => {
    always(({ found }) => {
      for (const { parts, score } of found().options) {
        const { addedDriving, ...rest } = parts;
        expect(addedDriving[0] + addedDriving[1] + Object.values(rest).reduce((sum, one) => sum + one, 0)).toBe(score);
      }
    });
  });

  it('checkStart refuses exactly the starts that brute force does not find', () => {
    always(({ world, query, all }) => {
      const free = new Map(all().map((one) => [nameOf(one), one.first]));
      const [day] = query.days;
      const wrong: unknown[] = [];
      for (let start = query.earliest; start + query.durationMinutes <= query.latestEnd; start += 60) {
        if (
          start % query.grid !== 0 ||
          (query.notBefore && (day! < query.notBefore.day || (day === query.notBefore.day && start < query.notBefore.minute)))
        )
          continue;
        for (const [i, a] of world.people.entries()) {
          for (const b of query.crewSize === 1 ? [null] : world.people.slice(i + 1)) {
            const orders =
              b === null
                ? [[a.id, null] as const]
                : ([
                    [a.id, b.id],
                    [b.id, a.id],
                  ] as const);
            const may = free.get(nameOf({ day: day!, start, crew: b === null ? [a.id] : [a.id, b.id] })) ?? [];
            const passes = orders.filter(([first, second]) => checkStart(world, query, { day: day!, start, first, second }).length === 0);
            const firsts = passes.map(([first]) => first).sort();
            if (firsts.join() !== may.join()) wrong.push({ start, a: a.id, b: b?.id, firsts, may });
          }
        }
      }
      expect(wrong).toEqual([]);
    });
  });
});

describe('whatever is booked', () => {
  it('every option passes the check', () => {
    always(({ world, query, found }) => {
      expect(found().options.flatMap((option) => checkStart(world, query, option))).toEqual([]);
    });
  });

  it('a booked option is never offered over', () => {
    always(({ world, query, found }) => {
      const [option] = found().options;
      if (!option) return;
      const booked = book(world, query, option);
      expect(checkStart(booked, query, option).map((one) => one.code)).toContain('overlap');
      for (const next of findStarts(booked, query).options) {
        const shared = crewOf(next).some((id) => crewOf(option).includes(id));
        expect(shared && next.day === option.day && next.start < option.end && option.start < next.end).toBe(false);
        expect(checkStart(booked, query, next)).toEqual([]);
      }
    });
  });

  it('removing a booking never takes a start away', () => {
    always(({ world, query, found, all }) => {
      const before = all().map(nameOf);
      const freed = { ...world, busy: world.busy.slice(1) };
      const after = new Set(allStarts(freed, query).map(nameOf));
      expect(before.filter((one) => !after.has(one))).toEqual([]);
      const days = new Set(findStarts(freed, query).options.map((one) => one.day));
      expect(found().options.every((one) => days.has(one.day))).toBe(true);
    });
  });

  it('fewer starts asked for are the first of more, with the same days blocked', () => {
    always(({ world, query }) => {
      const all = findStarts(world, { ...query, limit: 1000 });
      for (const limit of [0, 1, 3, 6]) {
        expect(findStarts(world, { ...query, limit })).toEqual({ ...all, options: all.options.slice(0, limit) });
      }
      const one = findStarts(world, { ...query, limit: 1000, perDay: 1 });
      expect(findStarts(world, { ...query, limit: 2, perDay: 1 })).toEqual({ ...one, options: one.options.slice(0, 2) });
    });
  });

  it('the order of people and bookings changes nothing', () => {
    always(({ world, query, found }) => {
      const turned = {
        ...world,
        people: [...world.people].reverse(),
        busy: [...world.busy].reverse(),
        pairRules: [...world.pairRules].reverse(),
      };
      expect(findStarts(turned, query)).toEqual(found());
    });
  });

  it('a day without a start has a reason, a day with one has none, and the nearest change is real', () => {
    let nearest = 0;
    always(({ world, query, found }) => {
      const offered = new Set(found().options.map((one) => one.day));
      for (const day of query.days) {
        const why = explainDay(world, query, day);
        expect(why.reasons.length > 0).toBe(!offered.has(day));
        expect(why.reasons.every((one) => /^[A-Z].*\.$/.test(one))).toBe(true);
        if (why.nearest) nearest += 1;
        expect(offered.has(day) && why.nearest !== undefined).toBe(false);
      }
    });
    expect(nearest).toBeGreaterThan(20);
  });

  it('somebody who may never be sent changes nothing', () => {
    always(({ world, query, found }) => {
      const stranger = {
        ...world.people[0]!,
        id: 'zzz',
        licensedUntil: null,
        unlicensedSecond: undefined,
        trainee: true,
        recentMinutes: 0,
      };
      const { options } = findStarts({ ...world, people: [...world.people, stranger] }, query);
      expect(options).toEqual(found().options);
    });
  });
});
