// Kit that has to fit: ladders long enough for the house, and what each member wears in his size.
import { describe, expect, it } from 'vitest';
import { checkStart } from '@backsight/scheduling/checkStart';
import { findStarts } from '@backsight/scheduling/findStarts';
import { wornPool } from '@backsight/scheduling/kit';
import type { Busy, KitPool, PersonInput } from '@backsight/scheduling/world';
import { person, query, TUE, visit, world } from './cast.ts';

const LONG = 'ladder of 28 ft';
const ladders = (all: number, long: number): KitPool[] => [
  { kind: 'ladder', count: all, outOfService: [] },
  { kind: LONG, name: 'ladder of 28 ft and more', of: 'ladder', count: long, outOfService: [] },
];
const respirators = (medium: number, large: number): KitPool[] => [
  { kind: wornPool('respirator', undefined), worn: 'respirator', count: 0, outOfService: [] },
  { kind: wornPool('respirator', 'M'), name: 'respirator in size M', worn: 'respirator', count: medium, outOfService: [] },
  { kind: wornPool('respirator', 'L'), name: 'respirator in size L', worn: 'respirator', count: large, outOfService: [] },
];
const sized = (sizes: Record<string, string | undefined>): PersonInput[] =>
  Object.entries(sizes).map(([id, size]) => person(id, size === undefined ? {} : { sizes: { respirator: size } }));
const afternoon = (crew: string[], kit: string): Busy => ({ ...visit('v1', crew, 780, 960, { kit: [kit] }), day: TUE });

const all = (list: readonly PersonInput[]) => [...list, person('cal'), person('dot')];
const plain = all([person('ann'), person('ben')]);

type Case = { rule: string; people: PersonInput[]; kit: KitPool[]; busy?: Busy[]; asks: string; short: string[]; reason?: string };

const CASES: Case[] = [
  {
    rule: 'the long ladder is with another crew',
    people: plain,
    kit: ladders(3, 1),
    busy: [afternoon(['cal', 'dot'], LONG)],
    asks: LONG,
    short: ['ladder of 28 ft and more'],
    reason: 'All 1 of ladder of 28 ft and more are taken that day (1 on the road).',
  },
  {
    rule: 'no ladder is long enough',
    people: plain,
    kit: ladders(3, 0),
    asks: LONG,
    short: ['ladder of 28 ft and more'],
    reason: 'No ladder of 28 ft and more is in service that day.',
  },
  {
    rule: 'a short one does where any will do',
    people: plain,
    kit: ladders(2, 1),
    busy: [afternoon(['cal', 'dot'], LONG)],
    asks: 'ladder',
    short: [],
  },
  {
    rule: 'the long one was the last of all',
    people: plain,
    kit: ladders(1, 1),
    busy: [afternoon(['cal', 'dot'], LONG)],
    asks: 'ladder',
    short: ['ladder'],
  },
  {
    rule: 'the last of all is out as any ladder',
    people: plain,
    kit: ladders(1, 1),
    busy: [afternoon(['cal', 'dot'], 'ladder')],
    asks: LONG,
    short: ['ladder'],
  },
  {
    rule: 'both wear the size of which one is left',
    people: sized({ ann: 'M', ben: 'M' }),
    kit: respirators(1, 5),
    asks: 'respirator',
    short: ['respirator in size M'],
    reason: 'Only one respirator in size M is free that day.',
  },
  { rule: 'each has his size', people: sized({ ann: 'M', ben: 'L' }), kit: respirators(1, 1), asks: 'respirator', short: [] },
  {
    rule: 'the piece of the size is with somebody else',
    people: sized({ ann: 'M', ben: 'L', cal: 'M', dot: 'L' }),
    kit: respirators(1, 2),
    busy: [afternoon(['cal', 'dot'], 'respirator')],
    asks: 'respirator',
    short: ['respirator in size M'],
  },
  {
    rule: 'they wear theirs already',
    people: sized({ ann: 'M', ben: 'L' }),
    kit: respirators(1, 1),
    busy: [afternoon(['ben', 'ann'], 'respirator')],
    asks: 'respirator',
    short: [],
  },
  {
    rule: 'a size is not on file',
    people: sized({ ann: 'M', ben: undefined }),
    kit: respirators(3, 3),
    asks: 'respirator',
    short: ['respirator, no size on file'],
    reason: 'No respirator, no size on file is in service that day.',
  },
];

describe('kit that has to fit', () => {
  it.each(CASES)('$rule', ({ people, kit, busy = [], asks, short, reason }) => {
    const firm = world({ people, kit, busy });
    const asked = { ...query({ kit: [asks] }), days: [TUE] };
    const said = checkStart(firm, asked, { day: TUE, start: 540, first: 'ann', second: 'ben' }).map(({ sentence }) => sentence);
    expect(said).toEqual(short.length === 0 ? [] : [`No piece is left that day of: ${short.join(', ')}.`]);
    const found = findStarts(firm, { ...asked, only: ['ann', 'ben'] });
    expect(found.options.length > 0).toBe(short.length === 0);
    if (reason) expect(found.blockedDays.flatMap(({ reasons }) => reasons).join(' ')).toContain(reason);
  });
});
