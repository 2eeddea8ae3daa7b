// Every electrical duty of Wis. Admin. Code SPS 131.32(7) is carried out by a step of the procedure book.
// Source: docs.legis.wisconsin.gov, chapter SPS 131, subchapter IV; rows and their status in data/wisconsin-electrical.json.
import { describe, expect, it } from 'vitest';
import { isDuty, uncoveredRows } from '@backsight/domain/procedures/coverage';
import type { StandardRow } from '@backsight/domain/procedures/coverage';
import type { Procedure } from '@backsight/domain/procedures/step';
import { PROCEDURES, revised } from '../../prisma/seed/procedures/book.ts';
import { GROUND_FAULT_STEPS_REVISED } from '../../prisma/seed/procedures/groundFaultRevision.ts';
import { WISCONSIN_ROWS } from '../../prisma/seed/procedures/wisconsin.ts';
import published from './data/wisconsin-electrical.json' with { type: 'json' };

const ROWS = published.rows as StandardRow[];
const READ_DUTIES = ROWS.filter((row) => isDuty(row) && row.status === 'found');

const withLesson = PROCEDURES.map((procedure) =>
  procedure.key === 'electrical' ? revised(procedure, GROUND_FAULT_STEPS_REVISED) : procedure,
);
const without = (key: string): Procedure[] =>
  PROCEDURES.map((procedure) => ({ ...procedure, steps: procedure.steps.filter((step) => step.key !== key) }));
const claimants = PROCEDURES.flatMap((procedure) => procedure.steps).filter(
  (step) => step.basis.kind === 'duty' && step.basis.rows.some((id) => ROWS.some((row) => row.id === id)),
);

describe('SPS 131.32(7), electrical', () => {
  it('has seven duties read in the rule, and rows that ask for nothing', () => {
    expect(READ_DUTIES.map((row) => row.id)).toEqual(['SOP-151', 'SOP-152', 'SOP-153', 'SOP-154', 'SOP-155', 'SOP-156', 'SOP-157']);
    expect(ROWS.filter((row) => !isDuty(row)).map((row) => row.id)).toEqual(['SOP-160', 'SOP-161']);
  });
  it("stands in the firm's copy of the rule with the same words and status", () => {
    expect(WISCONSIN_ROWS.filter((row) => row.citation === 'SPS 131.32(7)')).toEqual(ROWS);
  });
  it.each([
    ['first revision', PROCEDURES],
    ['with the ground-fault lesson', withLesson],
  ])('is covered by the book, %s', (_name, book) => {
    expect(uncoveredRows(READ_DUTIES, book)).toEqual([]);
    expect(uncoveredRows(ROWS, book)).toEqual([]);
  });
  it.each(claimants.map((step) => step.key))('is no longer covered without the step %s', (key) => {
    expect(uncoveredRows(ROWS, without(key)).length).toBeGreaterThan(0);
  });
  it('is wholly uncovered by an empty book, its rows that ask for nothing aside', () => {
    expect(uncoveredRows(ROWS, []).map((row) => row.id)).toEqual(ROWS.filter(isDuty).map((row) => row.id));
  });
  it('asks for nothing where the rule only bounds the inspection', () => {
    expect(
      uncoveredRows(
        ROWS.map((row) => ({ ...row, duty: 'scope' as const })),
        [],
      ),
    ).toEqual([]);
  });
  it('has a step that carries out each duty read in the rule, and only one', () => {
    for (const row of READ_DUTIES) {
      const only = claimants.filter((step) => step.basis.kind === 'duty' && step.basis.rows.includes(row.id));
      expect(only.length, row.id).toBe(1);
    }
  });
});
