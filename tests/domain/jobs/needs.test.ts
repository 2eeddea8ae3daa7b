// What is still to get: what is listed, when it is due, and what stays quiet. Lead times are our own.
import { describe, expect, it } from 'vitest';
import { needsOf, type NeedsFor } from '@backsight/domain/jobs/needs';

const NOW = new Date('2026-05-12T15:00:00Z');
const START = new Date('2026-05-20T14:00:00Z');
const job: NeedsFor = {
  facts: {},
  services: ['inspection'],
  terms: 'due_at_visit',
  tenant: false,
  parties: [{ role: 'client', email: 'c@test.example' }],
};
const kinds = (more: Partial<NeedsFor>) =>
  needsOf({ ...job, ...more }, START, NOW)
    .map(({ kind }) => kind)
    .sort();

describe('needsOf', () => {
  it.each<[string, Partial<NeedsFor>, string[]]>([
    ['an ordinary job', {}, ['access', 'payer', 'signature', 'utilities']],
    [
      'a client without an address',
      { parties: [{ role: 'client', email: null }] },
      ['access', 'client_address', 'payer', 'signature', 'utilities'],
    ],
    ['a tenant', { tenant: true, facts: { occupied: 'occupied' } }, ['access', 'payer', 'signature', 'tenant_notice', 'utilities']],
    ['a let but vacant house', { tenant: true, facts: { occupied: 'vacant' } }, ['access', 'payer', 'signature', 'utilities']],
    ['payment at booking', { terms: 'due_at_booking' }, ['access', 'payer', 'payment', 'signature', 'utilities']],
    ['a radon test', { services: ['inspection', 'radon'] }, ['access', 'closed_house', 'payer', 'results', 'signature', 'utilities']],
  ])('%s', (_, more, expected) => expect(kinds(more)).toEqual(expected));
  it('knows what is settled already', () => {
    const needs = needsOf(
      { ...job, facts: { waterOn: true, electricityOn: true, gasOn: true }, parties: [...job.parties, { role: 'payer', email: null }] },
      START,
      NOW,
    );
    expect(needs.filter(({ state }) => state === 'settled').map(({ kind }) => kind)).toEqual(['utilities', 'payer']);
  });
  it('leaves utilities open while the gas is not known', () => {
    expect(
      needsOf({ ...job, facts: { waterOn: true, electricityOn: true } }, START, NOW).find(({ kind }) => kind === 'utilities')!.state,
    ).toBe('open');
    expect(
      needsOf({ ...job, facts: { waterOn: true, electricityOn: true, heatingFuel: ['oil'] } }, START, NOW).find(
        ({ kind }) => kind === 'utilities',
      )!.state,
    ).toBe('settled');
  });
  it('is due before the start, never before there was an hour to get it', () => {
    const due = (start: Date) =>
      needsOf(job, start, NOW)
        .find(({ kind }) => kind === 'access')!
        .dueAt.toISOString();
    expect(due(START)).toBe('2026-05-19T14:00:00.000Z');
    expect(due(new Date('2026-05-12T20:00:00Z'))).toBe('2026-05-12T16:00:00.000Z');
    expect(due(new Date('2026-05-12T15:30:00Z'))).toBe('2026-05-12T15:30:00.000Z');
  });
});
