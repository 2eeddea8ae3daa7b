// Whose word came first where phones send late and their clocks are wrong: counts of two looks order as the record itself does.
import { randomUUID } from 'node:crypto';
import fc from 'fast-check';
import { beforeAll, expect, it } from 'vitest';
import type { Evidence } from '@backsight/domain/procedures/step';
import { twoLooksOfSteps } from '@backsight/store/callbacks/background';
import { blindPairs } from '@backsight/store/sitework/rules';
import { testApi } from '../../support/http.ts';
import {
  closedByDanger,
  couldNot,
  lookedAt,
  notReached,
  saw,
  twoRevisions,
  type LookedAt,
  type Place,
  type Said,
} from '../../support/lookedTwice.ts';
import type { SiteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { everyRow, plainCount, plainPairs } from '../callbacks/plainCount.ts';

const api = testApi();
withStarter(api);

const options = [
  { key: 'sound', label: 'Sound' },
  { key: 'rust', label: 'Rusted' },
];
const asked: Evidence = { kind: 'choice', options };
const REVISION = Object.fromEntries(Array.from({ length: 12 }, (_, at) => [`look-${at + 10}`, asked]));
const STEPS = Object.keys(REVISION);
const [BENS, OTHER, ANNAS] = [randomUUID(), randomUUID(), randomUUID()];
const [sound, rust] = [saw('sound'), saw('rust')];
/** The service filled in half an hour after the start, and everything else came in an hour after it. */
const ended: Said = { ...notReached, minute: 30, seq: 0 };
const closed: Said = { ...closedByDanger, minute: 30, seq: 0 };
const sent = (said: Said, written: number, more: Partial<Said> = {}): Said => ({
  ...said,
  ...{ minute: 60, seq: 100, phone: BENS, written },
  ...more,
});

/** Anna saw it sound; what Ben put down, each at a visit of its own, and what counts as his blind answer. */
const BENS_WORDS: [Said[], string | null][] = [
  [[ended, sent(rust, 10)], 'rust'], // looked before the visit ended, and came in after it
  [[closed, sent(rust, 40)], null], // looked when the danger was over
  [[closed, sent(rust, 20, { behind: 20 })], null], // so too, by a clock that is behind
  [[ended, sent(rust, 70, { behind: -45 })], 'rust'], // by a clock that runs ahead
  [[sent(couldNot, 20, { seq: 101 }), sent(rust, 5, { seq: 102 })], null], // the clock was set back between the two
  [[sent(couldNot, 25), sent(rust, 10, { phone: OTHER, seq: 500, minute: 90 })], 'rust'], // on two phones
  [[sent(sound, 25), sent(rust, 10, { phone: OTHER, seq: 500, minute: 90 })], 'rust'],
];

const person = (phones: readonly string[]) =>
  fc.array(
    fc.record({
      ...{ said: fc.constantFrom(sound, rust, couldNot), phone: fc.constantFrom(...phones) },
      ...{ seq: fc.nat(40), minute: fc.nat(60), written: fc.integer({ min: -20, max: 70 }), behind: fc.integer({ min: -20, max: 20 }) },
      filled: fc.constantFrom<Said | null>(null, null, null, notReached, closedByDanger),
    }),
    { minLength: 1, maxLength: 3 },
  );
const saidOf = (all: readonly { said: Said; phone: string; filled: Said | null; seq: number; minute: number }[]): Said[] =>
  all.map(({ said, phone, filled, ...order }) =>
    filled ? { ...filled, minute: order.minute, seq: order.seq } : { ...said, phone, ...order },
  );
const anyPlaces = fc.tuple(...STEPS.map((step) => fc.tuple(fc.constant(step), person([ANNAS]), person([BENS, OTHER]))));
const RANDOM: Place[][] = fc
  .sample(anyPlaces, { seed: 1202, numRuns: 12 })
  .map((places) => places.map(([step, anna, ben]) => ({ step, says: { anna: saidOf(anna), ben: saidOf(ben) } })));

const record = (day: number, places: Place[]): LookedAt => ({ day, pair: ['anna', 'ben'], revision: 1, places });
const KNOWN = BENS_WORDS.map(([ben], at): Place => ({ step: STEPS[at]!, says: { anna: [sound], ben } }));
/** The phone wrote something by the right time, then its clock was set back: what follows is no earlier. */
const SET_BACK: Place[] = [
  { step: STEPS[10]!, says: { anna: [sound], ben: [sent(sound, 40, { seq: 200 })] } },
  { step: STEPS[11]!, says: { anna: [sound], ben: [ended, sent(rust, 10, { seq: 201 })] } },
];

let revisions: string[];
beforeAll(async () => {
  revisions = await twoRevisions(api, [REVISION, REVISION]);
});

it('is the first that was written, by the time set right, whenever it came in; within a phone its counter decides', async () => {
  for (const [at, place] of KNOWN.entries()) await lookedAt(api, record(at + 1, [place]), revisions);
  await lookedAt(api, record(8, SET_BACK), revisions);
  const counted = (await blindPairs(api.database.read)).map(({ stepKey, first, second, count }) => [stepKey, first, second, count]);
  const known = BENS_WORDS.flatMap(([, answer], at) => (answer === null ? [] : [[STEPS[at], 'sound', answer, 1]]));
  expect(counted).toEqual([...known, [STEPS[10], 'sound', 'sound', 1]]);
});

it('comes out as in the order of the record, whatever was written and however it came', async () => {
  const jobs: SiteJob[] = [];
  for (const [at, places] of RANDOM.entries()) jobs.push(await lookedAt(api, record(at + 9, places), revisions));
  const rows = await everyRow(api.database.read);
  const [pairs, plain] = [await blindPairs(api.database.read), plainPairs(rows)];
  expect(plain.reduce((sum, { count }) => sum + count, 0)).toBeGreaterThan(20);
  expect(pairs).toEqual(expect.arrayContaining(plain));
  expect(pairs).toHaveLength(plain.length);
  const [looks, plainLooks] = [await twoLooksOfSteps(api.database.read, jobs[0]!.jobId, 100), plainCount(rows, jobs[0]!.jobId, 100)];
  expect(looks).toEqual(expect.arrayContaining(plainLooks));
  expect(looks).toHaveLength(plainLooks.length);
});
