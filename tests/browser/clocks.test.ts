// Tag: time.
// In the browser: the office keeps the on-call list, a danger alerts, the one alerted has it; a clock waits for the client and goes on.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { receiveCallback } from '@backsight/usecases/callbacks/receiveCallback';
import { openRecord } from '@backsight/usecases/sitework/openRecord';
import { as } from '../support/cast.ts';
import { siteJob } from '../support/siteJob.ts';
import { staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);
let jobId: string;
beforeAll(async () => {
  const job = await siteJob(app, { startsAt: new Date(app.clock.now.getTime() - 1_800_000) });
  jobId = job.jobId;
  const items = [{ id: randomUUID(), kind: 'ground_fault_device' as const, label: 'Upstairs bath' }];
  const record = { id: randomUUID(), visitId: job.visitId, items, systems: [], acknowledged: [] };
  expect((await app.runner.run(openRecord, record, { actor: as('anna') })).ok).toBe(true);
});

describe('clocks, pauses and who is on call', () => {
  it('walks from the on-call list over a danger to a clock that waits and goes on', async () => {
    const office = await app.openAs('office', '/on-call');
    await office.getByText('Nobody is on call for some of the coming day').waitFor();
    await office.getByLabel(/^Who/).selectOption('Cora Inspector');
    for (const day of ['Saturday', 'Sunday']) await office.getByLabel(day).check();
    await office.getByLabel(/^From/).fill('00:00');
    await office.getByLabel('Until; the next day').fill('00:00');
    await office.getByRole('button', { name: 'Add this line' }).click();
    await office.getByRole('cell', { name: 'all day' }).or(office.getByText('all day')).first().waitFor();
    await expect.poll(() => office.getByText('Nobody is on call for some of the coming day').count()).toBe(0);

    const id = randomUUID();
    const told = {
      speaker: 'client',
      kind: 'missed',
      safety: false,
      system: 'heating',
      place: 'Basement',
      remedySought: '',
      way: 'phone',
    } as const;
    const taken = await app.runner.run(
      receiveCallback,
      { ...told, id, jobId, words: 'The furnace smells of gas.' },
      { actor: as('office') },
    );
    expect(taken.ok, JSON.stringify(taken)).toBe(true);
    await office.goto(`${new URL(office.url()).origin}/callbacks/${id}`);
    await office.getByRole('button', { name: 'Somebody may be in danger' }).click();
    await office.getByLabel('What is dangerous').fill('A smell of gas in the basement');
    await office.getByRole('button', { name: 'Somebody may be in danger' }).click();
    await office.getByText('Nobody has answered yet').waitFor();
    await office.goto(`${new URL(office.url()).origin}/`);
    await office.getByRole('heading', { name: 'Danger: nobody has it yet (1)' }).waitFor();
    await office.getByRole('button', { name: /^I have it: Callback \d+/ }).waitFor();

    const cora = await app.openAs('cora', `/danger/${id}`, 'phone');
    await cora.getByText('The furnace smells of gas.').waitFor();
    await cora.getByRole('button', { name: 'I have it' }).click();
    await cora.getByText('Cora Inspector has it').waitFor();

    await office.goto(`${new URL(office.url()).origin}/callbacks/${id}`);
    await office.getByText('Cora Inspector has it').waitFor();
    await office.getByRole('button', { name: 'Wait for the client' }).click();
    await office.getByLabel('What we wait for').fill('A day on which somebody is at home');
    await office.getByRole('button', { name: 'Wait for the client' }).click();
    await office.getByText('will be due later by the office time').waitFor();
    await office.getByText('A day on which somebody is at home').first().waitFor();
    await office.getByRole('button', { name: 'Let the clocks go on' }).click();
    await office.getByRole('button', { name: 'Let the clocks go on' }).click();
    await expect.poll(() => office.getByText('will be due later by the office time').count()).toBe(0);
  });
});
