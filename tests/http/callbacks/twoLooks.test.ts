// How two looks came out, around a callback: counted by hand, by a plain count over the same rows, and by the service, over whatever window.
import { beforeAll, describe, expect, it } from 'vitest';
import type { Evidence } from '@backsight/domain/procedures/step';
import { twoLooksOfSteps, type TwoLooksRow } from '@backsight/store/callbacks/background';
import { testApi } from '../../support/http.ts';
import {
  closedByDanger,
  confirmed,
  couldNot,
  counted,
  lookedAt,
  noted,
  notReached,
  read,
  saw,
  twoRevisions,
  type LookedAt,
  type Said,
} from '../../support/lookedTwice.ts';
import { siteJob, type SiteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { recordOf, start } from '../sitework/support.ts';
import { everyRow, plainCount } from './plainCount.ts';
import { received, visited } from './support.ts';

const api = testApi();
withStarter(api);

const [FLUE, WATER, BREAKERS, WORDS, GAS] = ['heater-flue', 'heater-water', 'panel-breakers', 'heater-words', 'heater-gas'] as const;
const flue: Evidence = {
  kind: 'choice',
  options: [
    { key: 'sound', label: 'Sound' },
    { key: 'rust', label: 'Rusted' },
  ],
};
const breakers: Evidence = { kind: 'count', of: 'breakers' };
const words: Evidence = { kind: 'note', prompt: 'What else?' };
/** The second revision brings a limit: two readings on either side of it differ, however near they are. */
const hot: Evidence = { kind: 'reading', unit: '°F' };
const hotOver: Evidence = { ...hot, expectedTo: 120 };
const others = { [FLUE]: flue, [BREAKERS]: breakers, [WORDS]: words, [GAS]: { kind: 'confirm' } } satisfies Record<string, Evidence>;

const known = (n: number): string => `00000000-0000-7000-8000-0000000000${n}`;
const [LOW, HIGH] = [known(91), known(92)];
const entryId = (n: number): string => known(80 + n);
/** Sealed records that the window of the first count holds; the one that begins it came in at the same instant as the one before. */
const WINDOW = 10;

/** By the day of the visit, all sealed but the last. The callback is about the fourth. */
const RECORDS: LookedAt[] = [
  { day: 1, pair: ['anna', 'ben'], revision: 1, places: [{ step: FLUE, says: { anna: [saw('sound')], ben: [saw('rust')] } }] },
  {
    ...{ id: LOW, day: 2, pair: ['cora', 'dan'], revision: 1 },
    places: [{ step: FLUE, says: { cora: [saw('sound')], dan: [saw('rust')] } }],
  },
  {
    ...{ id: HIGH, day: 2, pair: ['anna', 'ben'], revision: 1 },
    places: [{ step: FLUE, says: { anna: [saw('rust')], ben: [saw('rust')] } }],
  },
  {
    ...{ day: 3, pair: ['anna', 'ben'], revision: 1 },
    places: [
      { step: FLUE, says: { anna: [saw('sound')], ben: [saw('rust'), saw('sound')] } }, // settled with the partner afterwards
      { step: WATER, says: { anna: [read(118)], ben: [read(124)] } },
      { step: WORDS, says: { anna: [noted], ben: [noted] } },
      { step: GAS, once: true, says: { anna: [confirmed], ben: [confirmed] } },
      { step: BREAKERS, panel: 'Garage', says: { anna: [counted(20)], ben: [counted(20)] } },
      { step: BREAKERS, panel: 'Barn', second: true, says: { anna: [counted(12)], ben: [counted(14)] } },
    ],
  },
  {
    ...{ day: 4, pair: ['cora', 'dan'], revision: 1 },
    places: [
      { step: FLUE, says: { cora: [saw('sound')], dan: [saw('sound')] } },
      { step: WATER, says: { cora: [read(100)], dan: [read(112)] } },
      { step: GAS, says: { cora: [confirmed], dan: [couldNot] } },
      { step: BREAKERS, panel: 'Main', says: { cora: [counted(30)] } }, // dan never said
    ],
  },
  {
    ...{ day: 5, pair: ['ben', 'anna'], revision: 2 },
    places: [
      { step: FLUE, says: { ben: [saw('rust')], anna: [saw('sound')] } },
      { step: WATER, says: { ben: [read(118)], anna: [read(124)] } },
      { step: GAS, says: { ben: [confirmed], anna: [confirmed] } },
      // came in together: the counter says which was first, then the id
      {
        ...{ step: BREAKERS, panel: 'Main' },
        says: {
          ben: [counted(30, { minute: 5, seq: 2, id: entryId(1) }), counted(31, { minute: 5, seq: 1, id: entryId(2) })],
          anna: [counted(30, { minute: 5, seq: 1, id: entryId(4) }), counted(31, { minute: 5, seq: 1, id: entryId(3) })],
        },
      },
    ],
  },
  {
    ...{ day: 6, pair: ['anna', 'ben'], revision: 2 },
    places: [
      { step: FLUE, once: true, says: { anna: [saw('sound')], ben: [saw('rust')] } }, // nobody asked for a second look
      { step: WATER, says: { anna: [couldNot], ben: [read(118)] } },
    ],
  },
  {
    ...{ day: 7, pair: ['cora', 'dan'], revision: 2 }, // ended early: the service wrote what was not reached
    places: [
      { step: FLUE, says: { cora: [saw('sound')], dan: [notReached] } },
      { step: WATER, says: { cora: [notReached], dan: [notReached] } },
    ],
  },
  {
    ...{ day: 8, pair: ['anna', 'ben'], revision: 2 }, // danger closed them; who looks afterwards may have seen what the partner said
    places: [
      { step: FLUE, says: { anna: [closedByDanger], ben: [closedByDanger] } },
      { step: WATER, says: { anna: [closedByDanger, read(118)], ben: [closedByDanger, read(118)] } },
      { step: BREAKERS, panel: 'Main', says: { anna: [couldNot], ben: [couldNot] } }, // each said so
    ],
  },
  {
    ...{ day: 9, pair: ['anna', 'ben'], revision: 2 }, // cora stood in for ben for a while
    places: [{ step: FLUE, says: { anna: [saw('sound')], cora: [saw('rust')] } }],
  },
  {
    ...{ day: 10, pair: ['cora', 'dan'], revision: 2 },
    places: [
      { step: FLUE, says: { cora: [saw('sound')], dan: [saw('sound')] } },
      { step: WATER, says: { cora: [read(100)], dan: [read(112)] } },
    ],
  },
  { day: 11, pair: ['anna', 'ben'], revision: 2, places: [{ step: GAS, once: true, says: { anna: [confirmed] } }] }, // takes a place in the window all the same
  {
    ...{ day: 12, pair: ['anna', 'ben'], revision: 2, open: true },
    places: [{ step: FLUE, says: { anna: [saw('rust')], ben: [saw('sound')] } }],
  },
];

let jobs: SiteJob[];
beforeAll(async () => {
  const revisions = await twoRevisions(api, [
    { ...others, [WATER]: hot },
    { ...others, [WATER]: hotOver },
  ]);
  jobs = [];
  for (const record of RECORDS) jobs.push(await lookedAt(api, record, revisions));
});

const row = (stepKey: string, asked: Evidence, first: Said, second: Said, count = 1): TwoLooksRow => ({
  ...{ stepKey, asked, count, firstOutcome: first.outcome, first: first.evidence },
  ...{ secondOutcome: second.outcome, second: second.evidence },
});
/** They come in no order. */
const same = (found: readonly TwoLooksRow[], wanted: readonly TwoLooksRow[], about = ''): void => {
  expect(found, about).toEqual(expect.arrayContaining([...wanted]));
  expect(found, about).toHaveLength(wanted.length);
};

/** By hand, over the ten newest sealed records. */
const BY_HAND: TwoLooksRow[] = [
  row(FLUE, flue, saw('sound'), saw('rust')), // day 3: what ben said first
  row(FLUE, flue, saw('sound'), saw('sound'), 2), // days 4 and 10, under two revisions that ask the same
  row(FLUE, flue, saw('rust'), saw('sound')), // day 5: ben is the first there
  row(FLUE, flue, saw('rust'), saw('rust')), // day 2, the later of the two
  row(WATER, hot, read(118), read(124)), // day 3
  row(WATER, hot, read(100), read(112)), // day 4
  row(WATER, hotOver, read(118), read(124)), // day 5
  row(WATER, hotOver, couldNot, read(118)), // day 6
  row(WATER, hotOver, read(100), read(112)), // day 10
  row(BREAKERS, breakers, counted(20), counted(20)), // day 3, garage
  row(BREAKERS, breakers, counted(12), counted(14)), // day 3, barn
  row(BREAKERS, breakers, counted(31), counted(31)), // day 5
  row(BREAKERS, breakers, couldNot, couldNot), // day 8
  row(WORDS, words, noted, noted), // day 3
];

describe('two looks', () => {
  it('are the first answers of both, at the steps that the job has looked at twice, over the newest sealed records', async () => {
    same(await twoLooksOfSteps(api.database.read, jobs[3]!.jobId, WINDOW), BY_HAND);
  });

  it('come out as a plain count of the same rows does, over any window', async () => {
    const rows = await everyRow(api.database.read);
    same(plainCount(rows, jobs[3]!.jobId, WINDOW), BY_HAND);
    for (const at of [3, 4, jobs.length - 1])
      for (let window = 0; window <= jobs.length; window++) {
        const found = await twoLooksOfSteps(api.database.read, jobs[at]!.jobId, window);
        same(found, plainCount(rows, jobs[at]!.jobId, window), `record ${at + 1}, window of ${window}`);
      }
  });

  it('are told around the callback as how often, and how often they differed; words are compared by nobody', async () => {
    const callbackId = await received(api, jobs[3]!);
    const { body } = await api.send('lead', 'GET', `/api/callbacks/${callbackId}/background`);
    expect(body.twoLooks.toSorted((a: { stepKey: string }, b: { stepKey: string }) => (a.stepKey < b.stepKey ? -1 : 1))).toEqual([
      { stepKey: FLUE, looks: 7, differed: 4 }, // the two before the window of above differed too
      { stepKey: WATER, looks: 5, differed: 3 }, // 100 and 112 are more than a tenth apart and both below 120; 118 and 124 the other way round
      { stepKey: BREAKERS, looks: 4, differed: 1 },
    ]);
  });

  it('are none where a visit ended before anybody looked', async () => {
    const early = await siteJob(api, { startsAt: new Date(api.clock.now.getTime() + 24 * 3_600_000) });
    const recordId = await start(api, early.visitId);
    const ended = await api.send('anna', 'POST', `/api/records/${recordId}/end`, { body: { endedAs: 'stopped_by_client' } });
    expect(ended.body.notReached).toBeGreaterThan(10);
    expect((await api.send('anna', 'POST', `/api/records/${recordId}/seal`, { body: {} })).status).toBe(201);
    const job = await visited(api); // of the same steps
    const { body } = await api.send('lead', 'GET', `/api/callbacks/${await received(api, job)}/background`);
    const twice = (await recordOf(api, 'anna', job.recordId)).steps.filter(({ partnerCheck }) => partnerCheck);
    expect([twice.length > 0, body.twoLooks]).toEqual([true, []]);
  });
});
