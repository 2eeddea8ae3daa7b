// A callback about a freezer that thawed: the house was inspected, its ground-fault device named, the client's words taken in and acknowledged.
import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import { acknowledgeCallback } from '@backsight/usecases/callbacks/moveCallback';
import { receiveCallback } from '@backsight/usecases/callbacks/receiveCallback';
import type { Act } from '@backsight/usecases/run';
import { openRecord } from '@backsight/usecases/sitework/openRecord';
import { as, type CastName } from './cast.ts';
import type { TestService } from './database.ts';
import { siteJob, type SiteJob } from './siteJob.ts';

/** The step that did not ask for power downstream. */
export const DEVICE = 'Ground-fault device: trip and reset';

/** Does an act that has to succeed. */
export async function done<In, Out>(service: TestService, act: Act<In, Out>, input: In, who: CastName): Promise<void> {
  const outcome = await service.runner.run(act, input, { actor: as(who) });
  expect(outcome.ok, JSON.stringify(outcome)).toBe(true);
}

/** Needs cast and starter set. */
export async function openCallback(service: TestService, pair: [CastName, CastName]): Promise<SiteJob & { callbackId: string }> {
  const job = await siteJob(service, { startsAt: new Date(service.clock.now.getTime() - 1_800_000), pair });
  const items = [{ id: randomUUID(), kind: 'ground_fault_device' as const, label: 'Upstairs bath' }];
  await done(service, openRecord, { id: randomUUID(), visitId: job.visitId, items, systems: [], acknowledged: [] }, pair[0]);
  const callbackId = randomUUID();
  const told = {
    speaker: 'client',
    kind: 'missed',
    safety: false,
    system: 'electrical',
    place: 'garage',
    remedySought: 'the thawed food',
    words: 'The freezer in the garage thawed: its receptacle is dead.',
  } as const;
  await done(service, receiveCallback, { ...told, id: callbackId, jobId: job.jobId, partyId: job.clientId }, 'office');
  await done(service, acknowledgeCallback, { id: callbackId }, 'office');
  return { ...job, callbackId };
}
