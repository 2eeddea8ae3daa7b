// The preview of a procedure's pauses: as the pair gets them, where one is too short, and what joining it would do.
import { describe, expect, it } from 'vitest';
import type { Step } from '@backsight/domain/procedures/step';
import { joined, pausesOf, type PauseHouse } from '@backsight/domain/sitework/pauses';
import { PROCEDURES } from '../../../prisma/seed/procedures/book.ts';
import { aStep } from './parts.ts';

const procedure = (steps: Step[]) => ({ key: 'p', title: 'P', system: 'p', steps });
const pauses = (steps: Step[], house: PauseHouse = 'most') => pausesOf(procedure(steps), house);
const many = (prefix: string, count: number, more: Partial<Step> = {}) =>
  Array.from({ length: count }, (_, at) => aStep(`${prefix}${at + 1}`, more));
const danger = (key: string, more: Partial<Step> = {}) => aStep(key, { style: 'read_then_do', caution: 'Hot.', ...more });
const shorts = (steps: Step[]) =>
  pauses(steps).flatMap(({ short, join, steps: [first] }) =>
    short ? [[first!.stepKey, join && `${join.side} ${join.of}, ${join.lines}`]] : [],
  );

describe('a pause', () => {
  it('holds up to nine lines; more become two even ones', () => {
    expect(pauses(many('a', 9)).map(({ steps, short }) => [steps.length, short])).toEqual([[9, false]]);
    expect(pauses(many('a', 11)).map(({ steps, short }) => [steps.length, short])).toEqual([
      [6, false],
      [5, false],
    ]);
  });
  it('is shown for the house with the most and for the one with the fewest steps', () => {
    const steps = [...many('a', 3), ...many('b', 3, { applies: { service: 'radon' } }), aStep('c', { per: 'panel' })];
    expect(pauses(steps).map((page) => page.steps.map(({ stepKey, item }) => stepKey + (item ? ` of ${item}` : '')))).toEqual([
      ['a1', 'a2', 'a3', 'b1', 'b2', 'b3', 'c of electrical panel'],
    ]);
    expect(pauses(steps, 'fewest').map((page) => page.steps.length)).toEqual([4]);
  });
  it.each<[string, Step[], unknown]>([
    ['five lines are enough', many('a', 5), []],
    ['what is read before it is done is no pause', [danger('x')], []],
    ['what both record is no pause', [aStep('x', { who: 'partner_check' })], []],
    ['alone in its procedure it has nothing to join', many('a', 2), [['a1', null]]],
    ['joins the one before it', [...many('a', 5), danger('x'), ...many('b', 2)], [['b1', 'behind a5, 7']]],
    ['joins the one behind it', [...many('a', 2), danger('x'), ...many('b', 5)], [['a1', 'before b1, 7']]],
    ['stays behind what it waits for', [...many('a', 5), danger('x'), aStep('b', { after: ['x'] })], [['b', null]]],
    [
      'waits by way of a third step',
      [...many('a', 5), danger('x'), danger('y', { after: ['x'] }), aStep('b', { after: ['y'] })],
      [['b', null]],
    ],
    ['stays before what waits for it', [aStep('a'), danger('x', { after: ['a'] }), ...many('b', 5)], [['a', null]]],
    ['joins no pause for other things', [...many('a', 5, { per: 'panel' }), danger('x'), ...many('b', 2)], [['b1', null]]],
    ['stays in its sequence', [...many('a', 5), danger('x', { sequence: 's' }), aStep('b', { sequence: 's' })], [['b', null]]],
  ])('%s', (_, steps, wanted) => expect(shorts(steps)).toEqual(wanted));
  it('joined, stands there in its order, and the pair gets one pause', () => {
    const steps = [...many('a', 5), danger('x'), ...many('b', 2)];
    const [short] = pauses(steps).filter((page) => page.short);
    const after = joined(steps, short!.join!);
    expect(after.map(({ key }) => key)).toEqual(['a1', 'a2', 'a3', 'a4', 'a5', 'b1', 'b2', 'x']);
    expect(pauses(after).map((page) => page.steps.length)).toEqual([7, 1]);
    const other = [...many('a', 2), danger('x'), ...many('b', 5)];
    expect(joined(other, pauses(other)[0]!.join!).map(({ key }) => key)).toEqual(['x', 'a1', 'a2', 'b1', 'b2', 'b3', 'b4', 'b5']);
  });
  it('joins nothing in the book by breaking an order, and loses no step', () => {
    for (const one of PROCEDURES)
      for (const { join } of pausesOf(one, 'most')) {
        const steps = join ? joined(one.steps, join) : [...one.steps];
        expect(steps.map(({ key }) => key).toSorted()).toEqual(one.steps.map(({ key }) => key).toSorted());
        const at = new Map(steps.map(({ key }, place) => [key, place]));
        const broken = steps.filter(({ key, after }) => after.some((before) => (at.get(before) ?? -1) > at.get(key)!));
        const before = new Map(one.steps.map(({ key }, place) => [key, place]));
        expect(
          broken.filter(({ key, after }) => after.every((other) => (before.get(other) ?? -1) < before.get(key)!)).map(({ key }) => key),
        ).toEqual([]);
      }
  });
});
