// Figures as the store gives them, made from a cumulative triangle of years, for tests of what is made of them.
import type { FigureRow } from '@backsight/domain/liability/development/triangle';

/** One row for each change of a cell: inspected in May of each year from 2001 on, known in the month given of the year of its cell. */
export const rowsOf = (triangle: readonly (readonly number[])[], measure = 'paid', month = '06'): FigureRow[] =>
  triangle.flatMap((cells, at) =>
    cells.map((cell, age) => ({
      measure,
      origin: `${2001 + at}-05`,
      known: `${2001 + at + age}-${month}`,
      amount: cell - (cells[age - 1] ?? 0),
    })),
  );

/** Jobs of each year, opened in the month of inspection. */
export const jobsOf = (counts: readonly number[]): FigureRow[] =>
  counts.map((amount, at) => ({ measure: 'jobs', origin: `${2001 + at}-05`, known: `${2001 + at}-05`, amount }));
