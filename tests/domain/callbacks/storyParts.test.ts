// The story of a callback on its page: which parts there are, which stand open, what a folded one says.
import { describe, expect, it } from 'vitest';
import type { Callback } from '@backsight/contract/callbacks';
import { opensByItself, outcomeOf, PARTS, partsForForm, partsOf, type Part } from '../../../apps/web/src/features/callbacks/storyParts.ts';

const conclusion = {
  cause: 'not_in_procedure',
  stepKey: 'trip',
  stepTitle: 'Trip and reset',
  procedureTitle: 'Electrical',
  revisionNumber: 2,
};
const callback = (given: Record<string, unknown> = {}): Callback =>
  ({
    ...{ kind: 'missed', state: 'looking_into', words: 'The freezer thawed.', conclusions: [], remedies: [], actions: [] },
    ...{ money: { paidCents: 0, reservedCents: 25_000 } },
    ...given,
  }) as unknown as Callback;
const concluded = callback({ state: 'concluded', conclusions: [{ ...conclusion, needsConfirmation: false, confirmedAt: null }] });
const waiting = callback({ state: 'concluded', conclusions: [{ ...conclusion, needsConfirmation: true, confirmedAt: null }] });
const open = (of: Callback): Part[] => (Object.keys(PARTS) as Part[]).filter((part) => opensByItself(part, of));
const FACTS: Part[] = ['said', 'recorded', 'asked', 'concluded'];
const ACTS: Part[] = ['done', 'cost', 'changed'];

describe('the parts of the story', () => {
  it('are seven for who judges, and neither opinion nor money for the office', () => {
    expect(partsOf(callback(), true)).toEqual([...FACTS, ...ACTS]);
    expect(partsOf(callback({ money: undefined, actions: undefined, conclusions: undefined }), false)).toEqual(['said', 'done']);
    expect(partsOf(callback({ kind: 'question' }), true)).not.toContain('concluded');
  });

  it.each([
    ['while it is looked into: the facts', callback(), FACTS],
    ['concluded: what follows', concluded, ACTS],
    ['while the conclusion waits for somebody: both', waiting, [...FACTS, ...ACTS]],
    ['closed: nothing', callback({ state: 'closed', conclusions: concluded.conclusions }), []],
  ])('stand open %s', (_when, of, parts) => expect(open(of)).toEqual(parts));

  it.each([
    ['conclude', FACTS],
    ['decide-1', ['done']],
    ['pay-1', ['done']],
    ['pay-case-1', ['cost']],
    ['reserve', ['cost']],
    ['draft-1', ['changed']],
    ['letter', []],
    [null, []],
  ])('are opened by the form %s', (form, parts) => expect(partsForForm(form)).toEqual(parts));

  it('say in one line what they came to', () => {
    const paid = callback({
      conclusions: concluded.conclusions,
      remedies: [{ kind: 'goodwill', cents: 18_540, state: 'done' }],
      actions: [{ number: 3, title: 'Count live receptacles', state: 'open' }],
    });
    const lines = [...FACTS, ...ACTS].map((part) => outcomeOf(part, paid, { steps: [{ entries: [{}] }], reports: [] } as never));
    expect(lines).toEqual([
      'The freezer thawed.',
      '1 entry; no report on file',
      'Electrical, revision 2',
      expect.stringMatching(/Traced step: Trip and reset$/),
      expect.stringMatching(/\$185\.40/),
      '$0.00 paid, $250.00 set aside',
      '3: Count live receptacles, open',
    ]);
    // What stands at the step that was named, and what it asked: once each, without what was replaced.
    const said = (answer: string, superseded = false) => ({ answer, superseded });
    const trip = {
      stepKey: 'trip',
      instruction: 'Trip the device and reset it.',
      entries: [said('not reset', true), said('trips and resets')],
    };
    const steps = [trip, { ...trip, entries: [said('trips and resets')] }, { stepKey: 'other', entries: [said('sound')] }];
    const told = (part: Part, given: object[]) => outcomeOf(part, concluded, { steps: given, reports: [] } as never);
    expect(told('recorded', steps)).toBe('At the traced step: trips and resets');
    expect(told('recorded', [{ ...trip, entries: [] }])).toBe('Nothing at the traced step');
    expect(told('asked', steps)).toBe('Electrical, revision 2: Trip the device and reset it.');
    expect(outcomeOf('concluded', waiting, undefined)).toMatch(/Waits to be confirmed$/);
    expect(outcomeOf('said', callback({ words: 'word '.repeat(60) }), undefined).length).toBeLessThan(100);
  });
});
