// Which steps a pair is handed, for which things, in which order.
import { describe, expect, it } from 'vitest';
import { suggestItems } from '@backsight/domain/sitework/items';
import { addedSteps, makePackage, type PackageContext } from '@backsight/domain/sitework/package';
import { goOn, pagesOf } from '@backsight/domain/sitework/pages';
import { PROCEDURES } from '../../../prisma/seed/procedures/book.ts';
import { HOUSE } from '../../support/siteJob.ts';
import { aStep, revision } from './parts.ts';

const context = (more: Partial<PackageContext> = {}): PackageContext => ({
  facts: {},
  services: [],
  day: '2026-05-12',
  items: [],
  pair: true,
  ...more,
});
const keys = (steps: ReturnType<typeof makePackage>): string[] => steps.map((s) => (s.item ? `${s.step.key}@${s.item.label}` : s.step.key));
const panels = [
  { id: 'p1', kind: 'panel' as const, label: 'panel 1' },
  { id: 'p2', kind: 'panel' as const, label: 'panel 2' },
];

describe('steps that apply', () => {
  const roof = aStep('roof', { applies: { fact: 'stories', compare: 'atLeast', value: 2 } });
  it.each([
    ['a rule that holds', { stories: 2 }, ['roof'], 'two or more'],
    ['a rule that does not', { stories: 1 }, [], ''],
    ['a fact that is not known', {}, ['roof'], 'applies because not known yet: stories'],
  ])('%s', (_, facts, wanted, because) => {
    const steps = makePackage([revision('a', [roof])], context({ facts }));
    expect(keys(steps)).toEqual(wanted);
    if (because.startsWith('applies')) expect(steps[0]?.because).toBe(because);
  });
  it('stand once for each item, item by item, and not at all without one', () => {
    const steps = [aStep('open', { per: 'panel' }), aStep('look', { per: 'panel' }), aStep('rest')];
    expect(keys(makePackage([revision('a', steps)], context({ items: panels })))).toEqual([
      'open@panel 1',
      'look@panel 1',
      'open@panel 2',
      'look@panel 2',
      'rest',
    ]);
    expect(keys(makePackage([revision('a', steps)], context()))).toEqual(['rest']);
  });
  it('are partner-checked by a pair, not by one person, nor where only one can enter', () => {
    const check = aStep('a', { who: 'partner_check' });
    expect(makePackage([revision('r', [check])], context())[0]?.partnerCheck).toBe(true);
    expect(makePackage([revision('r', [check])], context({ pair: false }))[0]?.partnerCheck).toBe(false);
    expect(makePackage([revision('r', [{ ...check, onePersonOnly: true }])], context())[0]?.partnerCheck).toBe(false);
  });
});

describe('order', () => {
  it('follows the book unless a step waits for another procedure', () => {
    const first = revision('a', [aStep('late', { after: ['ask'] }), aStep('early')]);
    expect(keys(makePackage([first, revision('b', [aStep('ask')])], context()))).toEqual(['early', 'ask', 'late']);
  });
  it('keeps a sequence together at its item', () => {
    const steps = [
      aStep('s1', { per: 'panel', sequence: 'cover' }),
      aStep('s2', { per: 'panel', sequence: 'cover', after: ['s1', 'ask'] }),
    ];
    expect(keys(makePackage([revision('a', steps), revision('b', [aStep('ask')])], context({ items: panels })))).toEqual([
      'ask',
      's1@panel 1',
      's2@panel 1',
      's1@panel 2',
      's2@panel 2',
    ]);
  });
  it('numbers positions on from an earlier package', () => {
    const added = addedSteps([revision('a', [aStep('open', { per: 'panel' }), aStep('rest')])], context({ items: [] }), panels[0]!, 17);
    expect(added.map((s) => [s.step.key, s.position])).toEqual([['open', 18]]);
  });
});

describe('items to begin with', () => {
  it.each([
    ['two bathrooms are numbered', { bathrooms: 2 }, 'bathroom', ['bathroom 1', 'bathroom 2']],
    ['a half bathroom is a room', { bathrooms: 1.5 }, 'bathroom', ['bathroom 1', 'bathroom 2']],
    ['one needs no number', { panels: 1 }, 'panel', ['electrical panel']],
    ['an unknown count is one', {}, 'water_heater', ['water heater']],
    ['none is none', { heatingSystems: 0 }, 'heating_system', []],
    ['no cooling, no system', { coolingKind: 'none' as const }, 'cooling_system', []],
    [
      'garages are told apart',
      { features: ['attached_garage', 'detached_garage'] as const },
      'garage',
      ['attached garage', 'detached garage'],
    ],
    [
      'a ground-fault device is looked for in bathrooms, kitchen and garage',
      { bathrooms: 2, features: ['attached_garage'] as const },
      'ground_fault_device',
      ['bathroom 1', 'bathroom 2', 'kitchen', 'attached garage'],
    ],
  ])('%s', (_, facts, kind, wanted) => {
    expect(
      suggestItems(facts)
        .filter((item) => item.kind === kind)
        .map(({ label }) => label),
    ).toEqual(wanted);
  });
});

describe('pages at a house with a basement', () => {
  const items = [...suggestItems(HOUSE)].map((item, at) => ({ ...item, id: `i${at}` }));
  const book = PROCEDURES.map((p) => ({
    procedureKey: p.key,
    title: p.title,
    system: p.system,
    revisionId: p.key,
    number: 1,
    steps: p.steps,
  }));
  const steps = makePackage(book, context({ facts: HOUSE, items })).map((s) => ({
    ...s,
    stepKey: s.step.key,
    itemId: s.item?.id ?? null,
    per: s.step.per,
    style: s.step.style,
    procedureTitle: s.procedureKey,
    sequence: s.step.sequence ?? null,
  }));

  it('orders every step after those that it waits for', () => {
    const at = new Map(steps.map((s) => [s.stepKey, s.position]));
    for (const s of steps)
      for (const before of s.step.after)
        if (at.has(before) && steps.filter((o) => o.stepKey === before).length === 1)
          expect(at.get(before)!, `${before} before ${s.stepKey}`).toBeLessThan(s.position);
  });
  it('pauses after at most nine lines, and dangerous steps stand alone', () => {
    for (const page of pagesOf(steps)) {
      expect(page.steps.length).toBeLessThanOrEqual(9);
      if (page.kind === 'group') expect(page.steps.every((s) => s.step.caution === undefined && !s.partnerCheck)).toBe(true);
    }
    expect(pagesOf(steps).flatMap((p) => p.steps)).toEqual(steps);
  });
});

describe('where to go on', () => {
  const page = (...steps: string[]) => ({ kind: 'one' as const, title: '', steps });
  const pages = [page('mine a'), page('done'), page('his'), page('mine b', 'done'), page('done')];
  const mine = (step: string) => step.startsWith('mine');
  const open = (step: string) => step !== 'done';
  it.each([
    ['behind, past what is done and what the other has', 0, [mine, open], 3],
    ["in front, when nothing of one's own is left behind", 3, [mine, open], 0],
    ['from before the first', -1, [mine, open], 0],
    ["to what the other has, when nothing of one's own is left", 4, [() => false, open], 0],
    ['nowhere, when nothing is left', 1, [() => false], null],
  ])('%s', (_, from, wanted, at) => expect(goOn(pages, from, wanted)).toBe(at));
  it('never to the page that was just left', () => expect(goOn([page('mine a')], 0, [mine])).toBeNull());
});
