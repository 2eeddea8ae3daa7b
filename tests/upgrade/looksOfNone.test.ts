// A firm whose figures of the steps were summed while what the service had filled in counted as a look.
import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import { oldDatabase } from '../support/oldDatabase.ts';

const old = oldDatabase('0059');

it('has those of the steps made anew, of all months; the other sums stay', async () => {
  await old.run(
    `INSERT INTO step_figure (step_key, revision_id, month, times, jobs, judged, met, skipped, could_not, differed) VALUES ('foundation-walls', $1, '2021-03-01', 9, 9, 9, 6, 3, 0, 3)`,
    [randomUUID()],
  );
  await old.run(`UPDATE figure_state SET until = '2026-05-12T05:00Z', steps_until = '2026-05-12T05:00Z'`);
  expect(await old.bringUp()).toContain('0059_looks_of_none');
  expect(await old.rows('SELECT count(*)::int FROM step_figure')).toEqual([[0]]);
  expect(await old.rows(`SELECT until = '2026-05-12T05:00Z', steps_until = '-infinity' FROM figure_state`)).toEqual([[true, true]]);
});
