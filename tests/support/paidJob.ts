// A booked job with a fee, and whatever parties a test of money or agreements wants.
import { randomUUID } from 'node:crypto';
import { siteJob, type SiteJob } from './siteJob.ts';
import type { TestService } from './database.ts';

type Wish = {
  cents?: number[];
  terms?: string;
  signed?: boolean;
  services?: boolean;
  startsAt?: Date;
  payers?: { name: string; email: string | null }[];
  clients?: { name: string; email: string | null; minor?: boolean }[];
};

let week = 0;

/** Each job takes its own week, so that the pair is free. */
export async function paidJob(service: TestService, wish: Wish = {}): Promise<SiteJob> {
  week += 1;
  const startsAt = wish.startsAt ?? new Date(Date.UTC(2026, 4, 19, 14) + week * 7 * 86_400_000);
  const job = await siteJob(service, { signed: wish.signed ?? false, startsAt, terms: wish.terms ?? 'due_at_visit' });
  const recordedAt = service.clock.now;
  await service.database.transaction(async ({ db }) => {
    const cents = wish.cents ?? [45_000, 12_500];
    await db.jobFeeLine.createMany({
      data: cents.map((c, position) => ({
        id: service.newId(),
        jobId: job.jobId,
        position,
        ruleKey: `r${position}`,
        label: `Line ${position + 1}`,
        reason: 'x',
        cents: c,
        recordedAt,
      })),
    });
    await db.jobService.create({ data: { jobId: job.jobId, serviceKey: 'inspection' } });
    await db.jobNeed.createMany({
      data: ['payment', 'signature'].map((kind) => ({
        id: randomUUID(),
        jobId: job.jobId,
        kind,
        state: 'open',
        dueAt: startsAt,
        details: {},
        recordedAt,
      })),
    });
    for (const [role, people] of [
      ['payer', wish.payers ?? []],
      ['client', wish.clients ?? []],
    ] as const) {
      for (const person of people) {
        const partyId = service.newId();
        await db.party.create({ data: { id: partyId, phone: null, recordedAt, ...person } });
        await db.jobParty.create({ data: { id: service.newId(), jobId: job.jobId, partyId, role } });
      }
    }
  });
  return job;
}

/** State of a thing on the still-to-get list. */
export async function needOf(service: TestService, jobId: string, kind: string): Promise<string | undefined> {
  const rows = await service.database.read.rows<{ state: string }>('SELECT state FROM job_need WHERE job_id = $1::uuid AND kind = $2', [
    jobId,
    kind,
  ]);
  return rows[0]?.state;
}
