// Groups of callbacks count what the list of the same kind holds.
import { beforeAll, describe, expect, it } from 'vitest';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { received, visited } from './support.ts';

const api = testApi();
withStarter(api);
const read = async (path: string) => (await api.send('lead', 'GET', path)).body;

describe('groups of callbacks', () => {
  beforeAll(async () => {
    const job = await visited(api);
    const ids = [await received(api, job), await received(api, job), await received(api, job, { system: 'roof' })];
    await api.database.transaction((tx) => tx.rows(`UPDATE callback SET state = 'closed' WHERE id = $1::uuid RETURNING 1`, [ids[0]]));
  });
  it.each([
    ['open', 2],
    ['closed', 1],
    ['all', 3],
  ])('are of those that are %s: %i', async (which, many) => {
    const groups: { callbacks: number }[] = await read(`/api/callbacks/groups?which=${which}&by=system`);
    expect(groups.reduce((sum, { callbacks }) => sum + callbacks, 0)).toBe(many);
    expect((await read(`/api/callbacks?which=${which}`)).items.length).toBe(many);
  });
});
