// Whose job is it: of held and lapsed visits nobody was ever told.
import pg from 'pg';
import { expect, it } from 'vitest';
import { goesToJobOf, JOBS_OF } from '@backsight/store/ownJobs';
import { CAST, withCast } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { siteJob } from '../support/siteJob.ts';
import { withStarter } from '../support/starter.ts';

const service = testService();
withCast(service);
withStarter(service);

/** As it stood before, which the rules of the database do not let a booked visit go back to. */
async function was(visitId: string, state: string): Promise<void> {
  const owner = new pg.Client({ connectionString: service.url, options: '-c session_replication_role=replica' });
  await owner.connect();
  await owner.query('UPDATE visit SET state = $2, live = $2 <> $3, hold_ends_at = CASE WHEN $2 = $4 THEN starts_at END WHERE id = $1', [
    visitId,
    state,
    'lapsed',
    'held',
  ]);
  await owner.end();
}

it('of a booked visit, and no longer of the same while it was held or once it had lapsed', async () => {
  const { jobId, visitId } = await siteJob(service, { pair: ['anna', 'ben'] });
  const read = service.database.read;
  const told: [string, boolean | null, boolean | null, boolean][] = [];
  for (const state of ['booked', 'held', 'lapsed']) {
    await was(visitId, state);
    const own = await read.rows<{ id: string }>(`SELECT job_id::text AS id FROM (${JOBS_OF('$1::uuid')}) own`, [CAST.anna.id]);
    const [anna, cora] = [await goesToJobOf(read, 'visit', visitId, CAST.anna.id), await goesToJobOf(read, 'visit', visitId, CAST.cora.id)];
    told.push([state, anna, cora, own.some(({ id }) => id === jobId)]);
  }
  expect(told).toEqual([
    ['booked', true, false, true],
    ['held', false, false, false],
    ['lapsed', false, false, false],
  ]);
});
