// Two jobs of the same day with everything that a job has, one of Anna and Ben, one of Cora and Dan: what one crew has is not the other's.
import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import { dayIn } from '@backsight/store/database';
import { openRecord } from '@backsight/usecases/sitework/openRecord';
import { placeTestItem } from '@backsight/usecases/sitework/testItems';
import { as, CAST, type CastName } from './cast.ts';
import type { TestService } from './database.ts';
import { siteJob } from './siteJob.ts';

/** Ids of the things of one job, by what a path may name. */
export type Things = {
  job: string;
  visit: string;
  record: string;
  report: string;
  agreement: string;
  signer: string;
  test_item: string;
} & {
  client: string;
  number: number;
};

/** Needs cast and starter set; the visits begin now. */
export async function twoCrews(service: TestService): Promise<{ own: Things; others: Things }> {
  return { own: await thingsOf(service, ['anna', 'ben']), others: await thingsOf(service, ['cora', 'dan']) };
}

async function thingsOf(service: TestService, pair: [CastName, CastName]): Promise<Things> {
  const { jobId, visitId, clientId } = await siteJob(service, { pair, startsAt: service.clock.now });
  const [record, item, report] = [randomUUID(), randomUUID(), randomUUID()];
  const opened = await service.runner.run(
    openRecord,
    { id: record, visitId, items: [], systems: [], acknowledged: [] },
    { actor: as(pair[0]) },
  );
  expect(opened.ok, JSON.stringify(opened)).toBe(true);
  const left = { id: item, jobId, kind: 'device', serial: item.slice(0, 8), what: 'Radon monitor', closedSince: null } as const;
  const placed = await service.runner.run(
    placeTestItem,
    { ...left, happenedAt: service.clock.now.toISOString(), occupantTold: true },
    { actor: as(pair[0]) },
  );
  expect(placed.ok, JSON.stringify(placed)).toBe(true);
  const day = dayIn('2026-05-12');
  await service.database.transaction(async ({ db }) => {
    await db.report.create({
      data: {
        ...{
          id: report,
          jobId,
          version: 1,
          registerNo: (await db.report.count()) + 1,
          source: 'drafted',
          body: {},
          recordedAt: service.clock.now,
        },
        ...{
          inspectedOn: day,
          completedOn: day,
          reportOn: day,
          inspectedBy: pair.map((who) => CAST[who].id),
          preparedBy: CAST[pair[0]].id,
        },
      },
    });
  });
  const [row] = await service.database.read.rows<{ agreement: string; signer: string; number: number }>(
    `SELECT a.id::text AS agreement, s.id::text AS signer, j.number FROM agreement a JOIN signer s ON s.agreement_id = a.id JOIN job j ON j.id = a.job_id WHERE a.job_id = $1::uuid`,
    [jobId],
  );
  return { job: jobId, visit: visitId, record, report, test_item: item, client: clientId, ...row! };
}
