// The firm's times, held against what states ask for.
import { describe, expect, it } from 'vitest';
import { mayKeepFor, stateYears, together, withoutCovered, RECORDS, type RecordKind } from '@backsight/domain/personal/retention';
import type { RulePack } from '@backsight/domain/shared/rulePack';
import { STATE_PACKS } from '../../../prisma/seed/starter/statePacks.ts';

const packs = STATE_PACKS.map((pack) => ({ id: pack.jurisdiction, ...pack })) as unknown as RulePack[];
const why = 'Our attorney said so.';
const of = (kind: RecordKind, years: number, states: string[], reason = why) =>
  mayKeepFor({ kind, years, reason, states: stateYears(packs, states) });

describe('years for which records are kept', () => {
  // Md. Code, Bus. Occ. & Prof. 16-4A-05 (five years from delivery); 68 Ill. Adm. Code 1410.240 (five years after the inspection);
  // North Carolina and Washington three, Texas two (from memory).
  it.each([
    ['US-MD', 5],
    ['US-IL', 5],
    ['US-NC', 3],
    ['US-WA', 3],
    ['US-TX', 2],
  ])('are asked for by %s: %i', (state, years) => {
    expect(stateYears(packs, [state]).map((row) => [row.state, row.years])).toEqual([[state, years]]);
    for (const kind of ['job', 'mail', 'callback'] as const) {
      expect(of(kind, years - 1, [state]), kind).toMatchObject({
        ok: false,
        code: 'retention-too-short',
        field: 'years',
        about: { years },
      });
      expect(of(kind, years, [state]), kind).toMatchObject({ ok: true });
    }
  });
  it('follow the longest of several states, and of several readings of one', () => {
    expect(of('job', 4, ['US-TX', 'US-MD'])).toMatchObject({ ok: false, about: { years: 5 } });
    const again = packs.map((pack) => ({ ...pack, versionDay: '2030-01-01', rows: [] }));
    expect(stateYears([...packs, ...again], ['US-MD'])).toMatchObject([{ years: 5 }]);
  });
  it('are free where no state speaks of them: prices asked, papers of former people, a state without a row', () => {
    expect(of('inquiry', 1, ['US-MD'])).toMatchObject({ ok: true });
    expect(of('staff', 1, ['US-MD'])).toMatchObject({ ok: true });
    expect(of('job', 1, ['US-ZZ'])).toMatchObject({ ok: true });
  });
  it('say where no law was seen and the years are a caution', () => {
    expect(stateYears(packs, ['US-WI', 'US-MD']).map(({ state, years, lawSeen }) => [state, years, lawSeen])).toEqual([
      ['US-MD', 5, true],
      ['US-WI', 6, false],
    ]);
  });
  it('need a reason', () => {
    expect(of('job', 10, [], '  short  ')).toMatchObject({ ok: false, code: 'reason-too-short', field: 'reason' });
  });
  it('are long unless an owner says otherwise', () => {
    expect([RECORDS.job.years, RECORDS.mail.years, RECORDS.callback.years]).toEqual([10, 10, 10]);
  });
});

describe('what is due', () => {
  it('is told once: mail and callbacks go with the file of their job where that is due too', () => {
    const units = [
      { kind: 'job', id: 'a' },
      { kind: 'mail', id: 'a' },
      { kind: 'callback', id: 'a' },
      { kind: 'mail', id: 'b' },
      { kind: 'inquiry', id: 'a' },
    ] as const;
    expect(withoutCovered(units).map(({ kind, id }) => kind + id)).toEqual(['joba', 'mailb', 'inquirya']);
  });
  it('goes in an order in which nothing of a job is left behind', () => {
    expect([together('job'), together('mail'), together('staff')]).toEqual([['mail', 'callback', 'job'], ['mail'], ['staff']]);
  });
});
