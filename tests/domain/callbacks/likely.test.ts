// Which steps a complaint is brought to, from signs that are given here by hand.
import { describe, expect, it } from 'vitest';
import { likelySteps, type Hit, type Looked } from '@backsight/domain/callbacks/likely';
import { askedWords, sharesWords } from '@backsight/domain/callbacks/tradeWords';

const step = (stepKey: string, system = 'electrical', results: Looked['steps'][number]['results'] = [DONE]) => ({
  ...{ stepKey, title: `Title of ${stepKey}`, system, results },
});
const DONE = { outcome: 'done', match: 'as_expected', partnerDiffers: false };
const ALL = [step('trip'), step('panel'), step('roof', 'roof'), step('gutter', 'roof')];
const asked = askedWords('freezer outlet dead');
const at = (word: string): number => asked.findIndex((one) => one.word === word);
const hit = (stepKey: string, word: string, place: Hit['place'] = 'B', near = 1): Hit => ({ stepKey, n: at(word), place, near });
const looked = (more: Partial<Looked>): Looked => ({ system: '', asked, steps: ALL, hits: [], traced: [], recorded: true, ...more });
const keys = (more: Partial<Looked>): string[] => likelySteps(looked(more)).map(({ stepKey }) => stepKey);

describe('the words that are looked for', () => {
  it.each([
    ['The outlets have no power', 'receptacle'],
    ['the gfci tripped', 'ground'],
    ['Fuse box', 'panel'],
    ['spigot outside', 'faucet'],
    ['the bathroom exhaust', 'fan'],
    ['smoke detectors', 'alarm'],
    ['CO went off', 'monoxide'],
    ['the AC', 'cooling'],
    ['a dead recepticle', 'outlet'],
  ])('%s: %s', (text, word) => {
    const found = askedWords(text).find((one) => one.word === word);
    expect(found?.weight).toBeGreaterThan(0);
    expect(found?.weight).toBeLessThan(1);
  });
  it('are each said once, without those that are said of every house, and of no more than the first 4,000 characters', () => {
    expect(askedWords('The house, the HOUSE, a furnace and a Furnace').filter(({ weight }) => weight === 1)).toEqual([
      { said: 'furnace', word: 'furnace', sign: 'furnace', weight: 1 },
    ]);
    expect(askedWords(`${'a1 & | ! ( :* '.repeat(400)} furnace`)).toEqual([]);
    expect(askedWords('x'.repeat(10_000)).length).toBe(1);
  });
  it('are shared by two texts or not', () => {
    expect([sharesWords('Upstairs bathrooms', 'the bathroom'), sharesWords('The house', 'in this house')]).toEqual([true, false]);
  });
});

describe('the ranking', () => {
  it('puts the title before the instruction, the rare word before the common one, and the said word before one for it', () => {
    expect(keys({ hits: [hit('panel', 'dead', 'B'), hit('trip', 'dead', 'A')] })).toEqual(['trip', 'panel']);
    const common = ['panel', 'roof', 'gutter'].map((key) => hit(key, 'dead'));
    expect(keys({ hits: [...common, hit('trip', 'freezer')] })[0]).toBe('trip');
    expect(keys({ hits: [hit('panel', 'receptacle'), hit('trip', 'outlet')] })).toEqual(['trip', 'panel']);
    expect(keys({ hits: [hit('panel', 'outlet', 'B', 0.5), hit('trip', 'freezer')] })).toEqual(['trip', 'panel']);
  });
  it('counts a said word once, whatever stands for it', () => {
    const [one] = likelySteps(looked({ hits: [hit('trip', 'outlet')] }));
    const [two] = likelySteps(looked({ hits: [hit('trip', 'outlet'), hit('trip', 'receptacle'), hit('trip', 'socket')] }));
    expect(two!.score).toBe(one!.score);
  });
  it.each([
    ['nothing was recorded at this step', []],
    ['the counts did not match', [{ ...DONE, match: 'differs' }]],
    ['a reading was outside the expected range', [{ ...DONE, match: 'outside' }]],
    ['could not be inspected', [{ ...DONE, outcome: 'could_not' }]],
    ['the two of the pair recorded different results', [{ ...DONE, partnerDiffers: true }]],
  ])('%s: lifts a step that fits and says so, and alone is no reason', (reason, results) => {
    const steps = [step('panel'), step('trip', 'electrical', results), step('roof', 'roof', results)];
    const found = likelySteps(looked({ system: 'electrical', steps }));
    expect(found.map(({ stepKey }) => stepKey)).toEqual(['trip', 'panel']);
    expect(found[0]!.reasons).toEqual(['belongs to the system that was named', reason]);
    expect(likelySteps(looked({ system: 'electrical', steps, recorded: false }))[0]!.stepKey).toBe('panel');
  });
  it('believes earlier cases a little, the more of them there are, and most when their words are alike', () => {
    const alike = { number: 1001, stepKey: 'roof', words: [at('freezer'), at('dead')] };
    const other = { number: 1002, stepKey: 'panel', words: [] };
    const found = likelySteps(looked({ traced: [alike, other, { ...other, number: 1003 }] }));
    expect(found.map(({ stepKey, reasons }) => [stepKey, reasons[0]])).toEqual([
      ['roof', 'like what was traced here before (1001)'],
      ['panel', '2 callbacks were traced here before'],
    ]);
    const score = (n: number) => likelySteps(looked({ traced: Array.from({ length: n }, (_, i) => ({ ...other, number: i })) }))[0]!.score;
    // (1 + 20 / 4) / (1 + 20) * 4 = 8 / 7 of the even guess; with a hundred of a hundred, seven eighths of the way to certainty.
    expect(Math.exp(score(1) / 0.4)).toBeCloseTo(8 / 7, 10);
    expect(Math.exp(score(100) / 0.4)).toBeCloseTo(3.5, 10);
    expect(score(100)).toBeLessThan(likelySteps(looked({ hits: [hit('trip', 'freezer', 'A')] }))[0]!.score);
  });
  it('names the strongest words in the words that were said, and never more than five steps', () => {
    const hits = [hit('trip', 'receptacle'), hit('trip', 'freezer', 'A'), hit('trip', 'dead', 'B', 0.5)];
    expect(likelySteps(looked({ hits }))[0]!.reasons).toEqual(['its words: freezer, outlet (receptacle), dead (by its spelling)']);
    const many = Array.from({ length: 9 }, (_, n) => step(`s${n}`));
    expect(likelySteps(looked({ system: 'electrical', steps: many })).map(({ stepKey }) => stepKey)).toEqual([
      's0',
      's1',
      's2',
      's3',
      's4',
    ]);
    expect(keys({})).toEqual([]);
  });
});
