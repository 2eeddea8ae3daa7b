// What the go-to box finds for an inspector: houses, clients and jobs that are his, and of a house where others went too only his own visits.
import pg from 'pg';
import { beforeAll, describe, expect, it } from 'vitest';
import { testApi } from '../support/http.ts';
import { siteJob, type SiteJob } from '../support/siteJob.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);
type Found = { kind: string; title: string; about: string; thing: { kind: string; id: string } };
const find = async (who: 'anna' | 'cora' | 'office', words: string): Promise<Found[]> =>
  (await api.send(who, 'GET', `/api/find?q=${encodeURIComponent(words)}`)).body.items;
const kinds = async (...asked: Parameters<typeof find>): Promise<string[]> => (await find(...asked)).map(({ kind }) => kind);

let annas: SiteJob;
let coras: SiteJob;
let again: SiteJob;
const numbers = new Map<string, number>();

async function named(owner: pg.Client, { jobId, clientId }: SiteJob, address: string, name: string): Promise<void> {
  const { rows } = await owner.query<{ number: number }>('SELECT number FROM job WHERE id = $1', [jobId]);
  numbers.set(jobId, rows[0]!.number);
  await owner.query('UPDATE property SET address = $2 WHERE id = (SELECT property_id FROM job WHERE id = $1)', [jobId, address]);
  await owner.query('UPDATE party SET name = $2 WHERE id = $1', [clientId, name]);
}

beforeAll(async () => {
  annas = await siteJob(api, { pair: ['anna', 'ben'], startsAt: new Date('2026-05-11T14:00:00Z') });
  coras = await siteJob(api, { pair: ['cora', 'dan'], startsAt: new Date('2026-05-11T14:00:00Z') });
  again = await siteJob(api, { pair: ['cora', 'dan'], startsAt: new Date('2026-05-12T14:00:00Z') });
  const owner = new pg.Client(api.url);
  await owner.connect();
  await named(owner, annas, '7 Heron Landing', 'Wilma Quill');
  await named(owner, coras, '8 Plover Bend', 'Xaver Reed');
  await named(owner, again, '7 Heron Landing', 'Yolanda Sedge');
  // the same house, inspected for another client by another pair
  await owner.query('UPDATE job SET property_id = (SELECT property_id FROM job WHERE id = $2) WHERE id = $1', [again.jobId, annas.jobId]);
  await owner.end();
});

describe('an inspector', () => {
  it.each(['plover', 'xaver', 'ploover bend', 'xaver reeed'])('finds nothing of what only others go to: %s', async (words) => {
    expect((await find('cora', words)).length).toBeGreaterThan(0);
    expect(await find('anna', words)).toEqual([]);
    expect((await find('office', words)).length).toBeGreaterThan(0);
  });
  it('finds nobody of another crew by the number of their job', async () => {
    expect(await find('anna', String(numbers.get(coras.jobId)))).toEqual([]);
    expect(await kinds('cora', String(numbers.get(coras.jobId)))).toEqual(['job']);
  });
  it.each(['heron', 'heeron landing'])('sees of a house where others went too one job, and that is the own: %s', async (words) => {
    const of = async (who: 'anna' | 'cora' | 'office') => (await find(who, words)).find(({ kind }) => kind === 'property');
    expect(await of('anna')).toMatchObject({ about: `1 job, number ${numbers.get(annas.jobId)}`, thing: { kind: 'job', id: annas.jobId } });
    expect(await of('cora')).toMatchObject({ about: `1 job, number ${numbers.get(again.jobId)}`, thing: { kind: 'job', id: again.jobId } });
    expect(await of('office')).toMatchObject({ about: `2 jobs, the newest number ${numbers.get(again.jobId)}` });
  });
  it('finds the own client of that house, and not the one of the others', async () => {
    expect(await kinds('anna', 'wilma')).toEqual(['job', 'client']);
    expect(await find('anna', 'yolanda')).toEqual([]);
    expect((await find('anna', 'heron')).filter(({ kind }) => kind === 'job').map(({ thing }) => thing.id)).toEqual([annas.jobId]);
  });
});
