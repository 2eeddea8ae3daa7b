// Tag: time.
// Limits of tests with devices and samples. 48 hours of a short radon test: Wisconsin Department of Health Services; 12 hours of closed house
// before: from memory; the holding time of a sample is an example.
import { describe, expect, it } from 'vitest';
import { collectFrom, mayStep, nextSteps, testFrom, type StepCommand, type TestItemFacts } from '@backsight/domain/sitework/testItems';

const at = (text: string): Date => new Date(`2026-05-${text}:00Z`);
const NOW = at('20T12:00');
const device: TestItemFacts = {
  kind: 'device',
  testFrom: at('12T15:00'),
  shortestHours: 48,
  holdingHours: null,
  steps: [{ step: 'placed', happenedAt: at('12T15:00') }],
};
const sample: TestItemFacts = {
  kind: 'sample',
  testFrom: null,
  shortestHours: 0,
  holdingHours: 30,
  steps: [
    { step: 'collected', happenedAt: at('12T15:00') },
    { step: 'sent', happenedAt: at('12T18:00') },
  ],
};
const say = (when: Date): string => when.toISOString().slice(5, 16);
const command = (more: Partial<StepCommand>): StepCommand => ({
  step: 'collected',
  happenedAt: at('14T15:00'),
  moved: false,
  words: '',
  ...more,
});

describe('the test', () => {
  it.each([
    ['house closed 12 hours before', at('12T03:00'), at('12T15:00')],
    ['closed longer', at('11T03:00'), at('12T15:00')],
    ['closed 2 hours before', at('12T13:00'), at('13T01:00')],
    ['closed when it was placed', null, at('13T03:00')],
  ])('counts from the placing or later: %s', (_, since, from) => {
    expect(testFrom(at('12T15:00'), since, 12)).toEqual(from);
  });
  it('is over 48 hours later, whatever the clocks do', () => {
    expect(collectFrom(device)).toEqual(at('14T15:00'));
    expect(collectFrom(sample)).toBeNull();
  });
});

describe('steps', () => {
  it.each<[string, TestItemFacts, Partial<StepCommand>, string | null]>([
    ['48 hours to the minute', device, {}, null],
    ['a minute less', device, { happenedAt: at('14T14:59') }, 'collected-too-early'],
    ['nobody looked whether it was moved', device, { moved: null }, 'moved-check-missing'],
    ['sent before it was collected', device, { step: 'sent' }, 'test-step-order'],
    ['placed twice', device, { step: 'placed' }, 'test-step-order'],
    ['ahead of time', device, { happenedAt: at('21T12:00') }, 'test-step-ahead'],
    ['before the step before', sample, { step: 'received', happenedAt: at('12T17:00') }, 'test-step-order'],
    ['a result without words', sample, { step: 'told', words: ' ' }, 'test-words-missing'],
    ['a result', sample, { step: 'told', words: 'No coliform' }, null],
    ['lost, with the reason', device, { step: 'given_up', words: 'The monitor was stolen' }, null],
    ['lost, without', device, { step: 'given_up' }, 'test-words-missing'],
  ])('%s', (_, item, more, code) => {
    const decided = mayStep(item, command(more), NOW, say);
    expect(decided.ok ? null : decided.code).toBe(code);
  });
  it('warns of a moved device and of a sample that was too long on its way, and stays quiet otherwise', () => {
    const codes = (item: TestItemFacts, more: Partial<StepCommand>) => {
      const decided = mayStep(item, command(more), NOW, say);
      return decided.ok ? decided.warnings.map(({ code }) => code) : decided.code;
    };
    expect(codes(device, { moved: true })).toEqual(['device-moved']);
    expect(codes(device, {})).toEqual([]);
    expect(codes(sample, { step: 'received', happenedAt: at('13T21:01') })).toEqual(['holding-time-over']);
    expect(codes(sample, { step: 'received', happenedAt: at('13T21:00') })).toEqual([]);
  });
  it('end with the result', () => {
    expect(nextSteps({ kind: 'device', steps: [] })).toEqual(['placed']);
    expect(nextSteps({ kind: 'sample', steps: [{ step: 'told', happenedAt: NOW }] })).toEqual([]);
  });
});
