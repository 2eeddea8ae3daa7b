// Tag: time.
// Decisions about jobs as tables: what goes through, what is refused, what stays quiet.
import { describe, expect, it } from 'vitest';
import {
  mayCancel,
  mayConfirm,
  mayLearn,
  mayLeave,
  mayMove,
  mayStand,
  offerOf,
  ownerAsked,
  priceAsTold,
  providerFor,
  type CatalogService,
} from '@backsight/domain/jobs/decide';
import { feeDifference } from '@backsight/domain/jobs/difference';
import { JOB_STATES, type JobState } from '@backsight/domain/jobs/words';

const allowed = (may: (state: JobState) => { ok: boolean }) => (Object.keys(JOB_STATES) as JobState[]).filter((state) => may(state).ok);

describe('states', () => {
  it('says in which states each act goes through', () => {
    expect(allowed((state) => mayConfirm({ state, roles: ['client'] }))).toEqual(['held', 'lapsed']);
    expect(allowed(mayCancel)).toEqual(['held', 'booked', 'lapsed']);
    expect(allowed(mayMove)).toEqual(['held', 'booked']);
    expect(allowed(mayLearn)).toEqual(['held', 'booked', 'on_site', 'lapsed']);
  });
  it('keeps the last client of a booked job only', () => {
    expect(mayLeave({ state: 'booked', roles: ['client', 'payer'] }, 'client')).toMatchObject({ code: 'last-client' });
    expect(mayLeave({ state: 'booked', roles: ['client', 'client'] }, 'client').ok).toBe(true);
    expect(mayLeave({ state: 'booked', roles: ['client', 'payer'] }, 'payer').ok).toBe(true);
    expect(mayLeave({ state: 'held', roles: ['client'] }, 'client').ok).toBe(true);
  });
});

describe('people', () => {
  it('lets an agent have the report only with consent, which the client needs not', () => {
    expect(mayStand('buyers_agent', true, null)).toMatchObject({ code: 'consent-missing' });
    expect(mayStand('buyers_agent', true, '2026-05-12T15:00:00Z').ok).toBe(true);
    expect(mayStand('buyers_agent', false, null).ok).toBe(true);
    expect(mayStand('client', true, null).ok).toBe(true);
  });
  it('asks the owner about the marked, and nobody else', () => {
    const marked = [{ name: 'Max', askOwner: 'owes' }];
    expect(ownerAsked(marked, false)).toMatchObject({ code: 'ask-owner', about: { name: 'Max', reason: 'owes' } });
    expect(ownerAsked(marked, true).ok).toBe(true);
    expect(ownerAsked([{ name: 'Ina', askOwner: null }], false).ok).toBe(true);
  });
});

describe('providers', () => {
  const provider = (id: string, licenseUntil: string | null, insuranceUntil: string | null) => ({
    id,
    serviceKey: 'septic',
    name: id,
    licenseUntil,
    insuranceUntil,
    offsetMinutes: 0,
    minutes: 60,
    costCents: 20_000,
    contractsWithUs: true,
  });
  const septic: CatalogService = {
    key: 'septic',
    name: 'Septic',
    base: false,
    searchWords: [],
    offeredWhen: { always: true },
    providerOnly: true,
  };
  const context = { facts: {}, services: [], day: '2026-05-12' };
  it('takes the first whose papers are valid on the day, the last day included', () => {
    const list = [
      provider('lapsed', '2026-05-11', null),
      provider('uninsured', null, '2026-05-11'),
      provider('good', '2026-05-12', '2026-05-12'),
    ];
    expect(providerFor('septic', list, '2026-05-12')?.id).toBe('good');
    expect(providerFor('septic', list, '2026-05-13')).toBeUndefined();
  });
  it('does not offer what nobody with valid papers does', () => {
    expect(offerOf(septic, [provider('lapsed', '2026-05-11', null)], context).offered).toBe('no');
    expect(offerOf(septic, [provider('good', null, null)], context)).toMatchObject({
      offered: 'yes',
      why: expect.stringContaining('good'),
    });
  });
});

describe('money', () => {
  it('holds only the price that was told', () => {
    expect(priceAsTold(46_500, 46_500).ok).toBe(true);
    expect(priceAsTold(null, 46_500).ok).toBe(true);
    expect(priceAsTold(40_000, 46_500)).toMatchObject({ code: 'price-changed', about: { nowUsd: '$465.00' } });
  });
  it('shows lines that are new, changed and gone', () => {
    const line = (rule: string, cents: number) => ({ rule, label: rule, reason: 'r', cents });
    expect(feeDifference([line('a', 1), line('b', 2), line('c', 3)], [line('a', 1), line('b', 5), line('d', 4)])).toMatchObject([
      { rule: 'b', beforeCents: 2, afterCents: 5 },
      { rule: 'd', beforeCents: null, afterCents: 4 },
      { rule: 'c', beforeCents: 3, afterCents: null },
    ]);
  });
});
