// Tag: time.
// Rules of states as rows, against what was read of each statute (citation and certainty as found; nothing here is legal advice).
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { packOn, rowsOn, type Certainty, type Effect, type RuleRow } from '@backsight/domain/shared/rulePack';
import { openingHours, readPack } from '@backsight/domain/firm/stored';
import { claimReadings, claimWindow, type FourDays } from '@backsight/domain/liability/claimWindow';
import { stateOfZip } from '@backsight/domain/shared/stateOfZip';
import { reportDue } from '@backsight/domain/sitework/reportDue';
import { OFFICE_HOURS, RULE_PACKS } from '../../prisma/seed/starter/rulePack.ts';
import { STATE_PACKS } from '../../prisma/seed/starter/statePacks.ts';

const rowsOf = (state: string): readonly RuleRow[] => STATE_PACKS.find(({ jurisdiction }) => jurisdiction === state)!.rows;

describe('rows of a state', () => {
  it.each<[state: string, key: string, certainty: Certainty, effect: Effect | null, citation: string]>([
    ['US-NY', 'written-first', 'found', { kind: 'written_first', fields: ['services', 'fee'] }, '19 NYCRR 197-4.2'],
    ['US-WA', 'conflicts-first', 'found', { kind: 'clause_needed', clause: 'conflicts' }, 'WAC 308-408C-020(2), (7)'],
    ['US-WA', 'written-first', 'memory', { kind: 'written_first', fields: [] }, 'WAC 308-408C-030'],
    ['US-IL', 'written-first', 'second_hand', { kind: 'written_first', fields: [] }, '1410.200'],
    ['US-IL', 'copy-kept', 'found', null, '1410.240'],
    ['US-WI', 'written-first', 'none', null, '440.975; SPS 131.33'],
    ['US-IL', 'report-names', 'found', null, '1410.250(b)'],
    ['US-IL', 'report-to-others', 'found', null, '1410.250(g)'],
    ['US-WI', 'report-names', 'found', null, 'SPS 131.33(1)(bm), (f)'],
    [
      'US-TX',
      'report-due',
      'memory',
      { kind: 'report_due', days: 2, unit: 'days', from: 'inspected', unlessAgreed: true },
      '22 TAC 535.222',
    ],
    [
      'US-NC',
      'report-due',
      'memory',
      { kind: 'report_due', days: 3, unit: 'businessDays', from: 'inspected', unlessAgreed: false },
      'N.C.G.S. 143-151.58',
    ],
    [
      'US-MD',
      'report-due',
      'memory',
      { kind: 'report_due', days: 7, unit: 'businessDays', from: 'inspected', unlessAgreed: false },
      '16-4A-01',
    ],
    ['US-MD', 'keep-records', 'found', { kind: 'keep', years: 5, from: 'delivered' }, '16-4A-05'],
    ['US-CA', 'cap', 'found', { kind: 'cap_barred' }, '7198'],
    ['US-CA', 'claim-clause', 'found', { kind: 'shorter_time_barred' }, '106 Cal. App. 4th 1315'],
    ['US-WI', 'cap', 'memory', { kind: 'cap_barred' }, '440.976'],
    ['US-CA', 'claim-statute', 'found', { kind: 'claim_time', years: 4, from: 'inspected' }, '7199'],
    ['US-WI', 'claim-statute', 'second_hand', { kind: 'claim_time', years: 2, from: 'completed' }, '440.977(1)'],
    ['US-WI', 'claim-contract', 'second_hand', { kind: 'claim_time', years: 6, from: 'completed' }, '893.43'],
    ['US-TX', 'claim-negligence', 'memory', { kind: 'claim_time', years: 2, from: 'completed' }, '16.003'],
    ['US-TX', 'claim-contract', 'memory', { kind: 'claim_time', years: 4, from: 'completed' }, '16.004, 16.051'],
    ['US-IL', 'claim-other', 'memory', { kind: 'claim_time', years: 5, from: 'completed' }, '5/13-205'],
    ['US-IL', 'claim-written', 'memory', { kind: 'claim_time', years: 10, from: 'completed' }, '5/13-206'],
    ['US-NY', 'claim-contract', 'memory', { kind: 'claim_time', years: 6, from: 'completed' }, 'CPLR 213'],
    ['US-NY', 'claim-malpractice', 'memory', { kind: 'claim_time', years: 3, from: 'completed' }, 'CPLR 214(6)'],
    ['US-WA', 'claim', 'none', null, 'no rule seen'],
    ['US-IL', 'keep-records', 'found', { kind: 'keep', years: 5, from: 'inspected' }, '1410.240'],
    ['US-IL', 'register', 'found', null, '1410.240(c), (d)'],
    ['US-TX', 'keep-records', 'memory', { kind: 'keep', years: 2, from: 'delivered' }, 'not checked'],
    ['US-WA', 'keep-records', 'memory', { kind: 'keep', years: 3, from: 'delivered' }, 'not checked'],
    ['US-WI', 'keep-records', 'none', { kind: 'keep', years: 6, from: 'delivered' }, 'SPS 131'],
    ['US-CA', 'repairs', 'found', { kind: 'no_paid_repairs', months: 12 }, '7197(a)(1)'],
    ['US-WA', 'repairs', 'found', { kind: 'no_paid_repairs', months: 12 }, '308-408C-020(8)'],
    ['US-NY', 'repairs', 'memory', { kind: 'no_paid_repairs', months: null }, '197-4.7'],
    ['US-TX', 'repairs', 'memory', { kind: 'no_paid_repairs', months: null }, '535.220'],
    ['US-IL', 'repairs', 'memory', { kind: 'no_paid_repairs', months: null }, 'Illinois code'],
    ['US-WI', 'repairs', 'none', null, 'no rule seen'],
    ['US-IL', 'scope', 'found', null, '225 ILCS 441/1-10'],
    ['US-WI', 'education', 'second_hand', null, '2021 act'],
    ['US-NY', 'education', 'second_hand', null, 'overview'],
    ['US-TX', 'education', 'memory', null, 'not checked'],
  ])('%s %s is %s', (state, key, certainty, effect, citation) => {
    const row = rowsOf(state).find((one) => one.key === key);
    expect(row).toMatchObject({ certainty, effect });
    expect(row!.citation).toContain(citation);
  });
  it('are read back as they are stored', () => {
    for (const { body } of RULE_PACKS) expect(readPack(JSON.parse(JSON.stringify(body))).rows).toEqual(body.rows);
  });
  it('came to firms that were there before word for word', () => {
    const folder = path.join(import.meta.dirname, '../../prisma/migrations');
    const sql = readdirSync(folder)
      .filter((one) => /^00(?:14|18)_/.test(one))
      .map((name) => readFileSync(path.join(folder, name, 'migration.sql'), 'utf8').replaceAll("''", "'"))
      .join('\n');
    for (const { jurisdiction, versionDay, body } of RULE_PACKS)
      expect(sql.includes(`('${jurisdiction}', DATE '${versionDay}', '${JSON.stringify(body)}'::jsonb)`)).toBe(true);
  });
  it('are refused when they hold anything else', () => {
    const [good] = rowsOf('US-CA');
    for (const wrong of [
      { ...good, certainty: 'sure' },
      { ...good, effect: { kind: 'cap_floor', cents: -1 } },
      { ...good, words: '' },
    ])
      expect(() => readPack({ name: 'X', rows: [wrong] })).toThrow();
    expect(() => readPack({ name: 'X', rows: [good, good] })).toThrow('same key');
  });
  it('hold on their days only', () => {
    const illinois = rowsOf('US-IL');
    const keys = (day: string) => rowsOn(illinois, day).map(({ key }) => key);
    expect([keys('2026-12-31').includes('act-ends'), keys('2027-01-01').includes('act-ends')]).toEqual([true, false]);
    expect([keys('2024-02-01').includes('standard'), keys('2024-02-02').includes('standard')]).toEqual([false, true]);
  });
});

describe('when a report is due', () => {
  // A visit that ended on Thursday, 5 November 2026; Veterans Day (11 November) is a closed day. The days of the rows are from memory.
  const calendar = { zone: 'America/Chicago', hours: openingHours(OFFICE_HOURS), closedDays: ['2026-11-11'] };
  const due = (state: string, promiseDays: number, completedAt = '2026-11-05T21:00:00Z') =>
    reportDue({
      promiseDays,
      inspectedAt: '2026-11-05T21:00:00Z',
      completedAt,
      state,
      rows: state === 'none' ? [] : rowsOf(state),
      calendar,
    });
  it.each<[state: string, promise: number, at: string, by: 'firm' | 'state', words: RegExp]>([
    ['US-WI', 2, '2026-11-09T23:00:00.000Z', 'firm', /^the firm promises it 2 business days after the visit; no rule of US-WI/],
    [
      'US-NC',
      2,
      '2026-11-09T23:00:00.000Z',
      'firm',
      /; the rule of US-NC: .*\(N\.C\.G\.S\. 143-151\.58; from memory, to be read in the source\)$/,
    ],
    ['US-NC', 5, '2026-11-10T23:00:00.000Z', 'state', /^the rule of US-NC: .*; the firm promises it 5 business days/],
    ['US-MD', 9, '2026-11-17T23:00:00.000Z', 'state', /within 7 business days/],
    ['US-TX', 5, '2026-11-13T23:00:00.000Z', 'firm', /and the agreement says so; the rule of US-TX: .*unless agreed otherwise/],
    ['none', 0, '2026-11-05T23:00:00.000Z', 'firm', /on the day of the visit/],
  ])('in %s, promised in %i', (state, promise, at, by, words) => {
    expect(due(state, promise)).toMatchObject({ at, by });
    expect(due(state, promise).words).toMatch(words);
  });
  it('counts plain days too, and from the completion where the row says so', () => {
    const row = { ...rowsOf('US-NC').find(({ key }) => key === 'report-due')! };
    const rows = [{ ...row, effect: { kind: 'report_due', days: 2, unit: 'days', from: 'completed', unlessAgreed: false } as const }];
    const at = reportDue({
      promiseDays: 9,
      inspectedAt: '2026-11-05T21:00:00Z',
      completedAt: '2026-11-06T21:00:00Z',
      state: 'X',
      rows,
      calendar,
    }).at;
    expect(at).toBe('2026-11-09T05:59:59.999Z');
  });
});

describe('the pack of a day', () => {
  const packs = [
    { jurisdiction: 'US-WI', versionDay: '2026-07-01' },
    { jurisdiction: 'US-WI', versionDay: '2026-01-01' },
    { jurisdiction: 'US-NY', versionDay: '2026-01-01' },
  ];
  it.each([
    ['US-WI', '2026-06-30', '2026-01-01'],
    ['US-WI', '2026-07-01', '2026-07-01'],
    ['US-WI', '2019-01-01', '2026-01-01'],
    ['US-ME', '2026-07-01', undefined],
  ])('%s on %s is that of %s', (state, day, version) => expect(packOn(packs, state, day)?.versionDay).toBe(version));
  it.each([
    ['54901', 'US-WI'],
    ['54901-1234', 'US-WI'],
    ['10001', 'US-NY'],
    ['60601', 'US-IL'],
    ['78701', 'US-TX'],
    ['94103', 'US-CA'],
    ['98101', 'US-WA'],
    ['55401', 'US-MN'],
    ['00501', 'US-NY'],
    ['09001', null],
    ['', null],
    ['5490', null],
  ])('ZIP code %s lies in %s', (zip, state) => expect(stateOfZip(zip)).toBe(state));
});

describe('the claim window by the rows of a state', () => {
  const days: FourDays = { inspectedOn: '2024-02-29', completedOn: '2024-03-01', deliveredOn: '2024-03-04', discoveredOn: '2025-06-01' };
  it.each([
    ['US-WI', '2026-03-01', '2030-03-01'],
    ['US-NY', '2027-03-01', '2030-03-01'],
    ['US-IL', '2029-03-01', '2034-03-01'],
    ['US-TX', '2026-03-01', '2028-03-01'],
    ['US-CA', '2028-02-29', '2029-06-01'],
  ])('%s: until %s, and the longer until %s', (state, shortUntil, longUntil) =>
    expect(claimWindow(claimReadings(rowsOf(state), '2024-02-29'), days)).toMatchObject({ shortUntil, longUntil }),
  );
  it('is not known where nothing was read', () => expect(claimWindow(claimReadings(rowsOf('US-WA'), '2024-02-29'), days)).toBe(null));
  it('counts from the delivery where a matter is not discovered yet', () =>
    expect(claimWindow(claimReadings(rowsOf('US-CA'), '2024-02-29'), { ...days, discoveredOn: null })).toMatchObject({
      longUntil: '2028-03-04',
    }));
});
