// What records hold at a step where the service filled in for somebody: counted by hand, by a plain count over the same rows, and by each
// of the three places that count it (figures of the steps, effect of a change, the same gap elsewhere), live and after the night.
import { randomUUID } from 'node:crypto';
import fc from 'fast-check';
import { beforeAll, expect, it } from 'vitest';
import type { Evidence } from '@backsight/domain/procedures/step';
import { recordsOfStep } from '@backsight/store/callbacks/effect';
import { placesOfJobs } from '@backsight/store/callbacks/elsewhere';
import { execute } from '@backsight/store/database';
import { stepFigures } from '@backsight/store/liability/figures';
import { gapsOf } from '@backsight/usecases/callbacks/readElsewhere';
import { rebuildFigures, rebuildFiguresAtNight } from '@backsight/usecases/liability/figures';
import { testApi } from '../../support/http.ts';
import {
  closedByDanger,
  couldNot,
  counted,
  lookedAt,
  notReached,
  saw,
  twoRevisions,
  type LookedAt,
  type Place,
  type Said,
} from '../../support/lookedTwice.ts';
import { withStarter } from '../../support/starter.ts';
import { plainFigures, plainPlaces, plainRecords } from './plainSteps.ts';

const api = testApi();
withStarter(api);

const [FLUE, WALLS, BREAKERS] = ['heater-flue', 'foundation-look', 'panel-breakers'] as const;
const choice: Evidence = {
  kind: 'choice',
  options: [
    { key: 'sound', label: 'Sound' },
    { key: 'rust', label: 'Rusted' },
  ],
};
const REVISION: Record<string, Evidence> = { [FLUE]: choice, [WALLS]: choice, [BREAKERS]: { kind: 'count', of: 'breakers' } };
const [sound, rust] = [saw('sound'), saw('rust')];
const corrected = randomUUID();

/** What Anna and Ben put down, each pair of answers in a record of its own, and what it counts as beside "done". */
const KNOWN: [Said[], Said[], string[]][] = [
  [[sound], [sound], []],
  [[sound], [rust], ['differed']],
  [[sound], [notReached], []], // the visit ended before Ben could look: done by one
  [[notReached], [sound], []],
  [[notReached], [notReached], ['ended']],
  [[closedByDanger], [closedByDanger], ['could not']],
  [[sound], [closedByDanger], []],
  [[sound], [closedByDanger, notReached], []],
  [[closedByDanger, sound], [closedByDanger, sound], []], // both went in when the danger was over
  [[closedByDanger, sound], [closedByDanger, rust], ['differed']],
  [[sound], [notReached, rust], ['differed']], // his phone had no signal when the visit ended
  [[couldNot], [notReached], ['could not']],
  [[], [], ['no entry']],
  [[couldNot], [sound], ['could not', 'differed']],
  [
    [
      { ...closedByDanger, id: corrected },
      { ...sound, corrects: corrected },
    ],
    [closedByDanger],
    [],
  ],
];
const record = (day: number, places: Place[], more: Partial<LookedAt> = {}): LookedAt => ({
  ...{ day, pair: ['anna', 'ben'], revision: 1, places },
  ...more,
});
const flueOf = (anna: Said[], ben: Said[]): Place => ({ step: FLUE, says: { anna, ben } });

const person = fc.array(fc.constantFrom(sound, rust, couldNot, notReached, notReached, closedByDanger, closedByDanger), { maxLength: 3 });
const atPanel = fc.array(fc.constantFrom(counted(20), counted(24), notReached, closedByDanger), { maxLength: 2 });
const anyRecord = fc.record({ anna: person, ben: person, panels: fc.array(fc.tuple(atPanel, atPanel), { maxLength: 2 }) });
const RANDOM: Place[][] = fc
  .sample(anyRecord, { seed: 59, numRuns: 40 })
  .map(({ anna, ben, panels }) => [
    { step: WALLS, says: { anna, ben } },
    ...panels.map(([one, other], at): Place => ({ step: BREAKERS, panel: `Panel ${at}`, says: { anna: one, ben: other } })),
  ]);

let revision: string;
const jobs: string[] = [];
beforeAll(async () => {
  const revisions = await twoRevisions(api, [REVISION, REVISION]);
  revision = revisions[0]!;
  const records = [
    ...KNOWN.map(([anna, ben], at) => record(at + 1, [flueOf(anna, ben)])),
    record(KNOWN.length + 1, [flueOf([sound], [notReached])], { open: true }),
    ...RANDOM.map((places, at) => record(at + 40, places)),
  ];
  for (const one of records) jobs.push((await lookedAt(api, one, revisions)).jobId);
});

const numbered = (what: string): number[] => KNOWN.flatMap(([, , counts], at) => (counts.includes(what) ? [at] : []));
const sorted = <T>(rows: readonly T[]): string[] => rows.map((row) => JSON.stringify(row)).toSorted();
const figuresNow = async () => sorted((await stepFigures(api.database.read)).map((row) => Object.entries(row).toSorted()));
const figuresByHand = async () => sorted(plainFigures(await plainPlaces(api.database.read)).map((row) => Object.entries(row).toSorted()));

it('a place with one answer is done by one: by hand in the figures of the step', async () => {
  const [found, ...more] = await stepFigures(api.database.read, { stepKeys: [FLUE] });
  expect(more).toEqual([]);
  expect(found).toEqual({
    ...{ stepKey: FLUE, revisionId: revision, month: '2026-04', times: 16, jobs: 16, judged: 15 },
    ...{ met: 13, skipped: 2, couldNot: 3, differed: 4 },
  });
});

it('by hand in the effect of a change', async () => {
  const found = await recordsOfStep(api.database.read, FLUE);
  const those = (of: (at: (typeof found)[number]) => boolean) => found.flatMap((at, index) => (of(at) ? [index] : []));
  expect(those(({ noEntry }) => noEntry)).toEqual(numbered('no entry'));
  expect(those(({ endedBefore }) => endedBefore)).toEqual(numbered('ended'));
  expect(those(({ couldNot: not }) => not)).toEqual(numbered('could not'));
  expect(those(({ partnerDiffers }) => partnerDiffers)).toEqual(numbered('differed'));
});

it('by hand in the same gap elsewhere', async () => {
  const places = await placesOfJobs(api.database.read, { stepKey: FLUE, revisionId: revision }, jobs);
  const those = (gap: string) =>
    jobs.flatMap((id, at) => (places.some((p) => p.jobId === id && gapsOf(p).includes(gap as never)) ? [at] : []));
  expect(those('no_entry')).toEqual(numbered('no entry'));
  expect(those('could_not')).toEqual([...numbered('ended'), ...numbered('could not')].toSorted((a, b) => a - b));
  expect(those('partner_differs')).toEqual(numbered('differed'));
});

it('comes out as in a plain count of the same rows, whatever was put down', async () => {
  const plain = await plainPlaces(api.database.read);
  expect(await figuresNow()).toEqual(await figuresByHand());
  for (const step of [FLUE, WALLS, BREAKERS]) {
    const records = plainRecords(plain, step);
    const found = await recordsOfStep(api.database.read, step);
    expect(found.length).toBe(records.length);
    expect(sorted(found.map(({ outside: _, notRestored: __, old: ___, ...row }) => Object.entries(row).toSorted()))).toEqual(
      sorted(records.map((row) => Object.entries(row).toSorted())),
    );
    const gaps = (await placesOfJobs(api.database.read, { stepKey: step, revisionId: revision }, jobs)).flatMap((p) => gapsOf(p));
    const at = plain.filter((place) => place.step_key === step && place.record.state === 'sealed');
    const count = (of: string) => gaps.filter((gap) => gap === of).length;
    expect(count('partner_differs')).toBe(at.filter((place) => place.partnerDiffers).length);
    expect(count('could_not')).toBe(at.filter((place) => place.couldNot || place.endedBefore).length);
  }
  expect(plain.filter((place) => place.partnerDiffers).length).toBeGreaterThan(10);
});

it('says the same after the night, and where only the sums of the steps are to be made anew they are, of all months and at once', async () => {
  const services = { database: api.database, clock: () => new Date('2027-02-10T15:00:00Z') };
  await rebuildFigures(services, true);
  expect(await figuresNow()).toEqual(await figuresByHand());
  await api.database.transaction(async (tx) => {
    await execute(tx, 'DELETE FROM step_figure');
    await execute(tx, "UPDATE figure_state SET steps_until = '-infinity'");
  });
  await rebuildFiguresAtNight(services);
  const [{ kept }] = (await api.database.read.rows<{ kept: number }>('SELECT count(*)::int AS kept FROM step_figure')) as [
    { kept: number },
  ];
  expect(kept).toBeGreaterThan(3);
  expect(await figuresNow()).toEqual(await figuresByHand());
});
