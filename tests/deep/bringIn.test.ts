// A spreadsheet of 50,000 jobs: looked through, brought in and taken out again, with progress that another service sees, and the seconds it took.
import { expect, it } from 'vitest';
import { bringInOf } from '../support/bringIn.ts';
import { testApi } from '../support/http.ts';
import { manyJobs } from '../support/manyJobs.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);
const { work, one, take, act } = bringInOf(api);

const ROWS = 50_000;
const MOST_SECONDS = 120;

/** Works until it is done, and looks on meanwhile as a screen does. */
async function watched(id: string): Promise<{ seconds: number; seen: string[] }> {
  const seen = new Set<string>();
  const began = performance.now();
  let over = false;
  const done = work().finally(() => (over = true));
  while (!over) {
    const { progress } = await one(id);
    if (progress) seen.add(`${progress.phase} ${progress.done}`);
    await new Promise((resolve) => void setTimeout(resolve, 500));
  }
  await done;
  return { seconds: (performance.now() - began) / 1000, seen: [...seen] };
}

it('takes less than two minutes to look through and to bring in', async () => {
  const people = ['Anna Inspector', 'Ben Inspector', 'Cora Inspector', 'Dan Inspector', 'Lena Lead', 'Luis Lead'];
  const towns = (await api.database.read.rows<{ name: string }>('SELECT name FROM town ORDER BY name')).map(({ name }) => name);
  const id = await take('jobs', manyJobs(ROWS, { people, towns }));
  const { version, mapping } = await one(id);
  await api.send('office', 'PUT', `/api/bring-ins/${id}/mapping`, { version, body: mapping });
  const looked = await watched(id);
  const { counts } = await one(id);
  expect(counts).toMatchObject({ rows: ROWS, left: 0 });
  expect(counts.fresh + counts.known).toBe(ROWS);
  await act(id, 'bring', { leaveOut: false });
  const brought = await watched(id);
  expect(await one(id)).toMatchObject({ state: 'done', note: null, counts });
  const [{ n }] = (await api.database.read.rows<{ n: number }>('SELECT count(*)::int AS n FROM job WHERE bring_in_id = $1::uuid', [
    id,
  ])) as [{ n: number }];
  expect(n).toBe(counts.fresh);
  await act(id, 'undo');
  const taken = await watched(id);
  expect(await one(id)).toMatchObject({ state: 'undone' });
  console.log(
    `${ROWS} rows: ${looked.seconds.toFixed(1)} s to look through, ${brought.seconds.toFixed(1)} s to bring in, ${taken.seconds.toFixed(1)} s to take out`,
  );
  expect(looked.seen.length, looked.seen.join()).toBeGreaterThan(1);
  expect(brought.seen.some((said) => said.startsWith('writing'))).toBe(true);
  expect(looked.seconds + brought.seconds).toBeLessThan(MOST_SECONDS);
}, 900_000);
