// Spreadsheets as people keep them: which column is which, how days and amounts are written, and what cannot be read.
import { describe, expect, it } from 'vitest';
import {
  readCount,
  readDay,
  readEmail,
  readMoney,
  readPhone,
  readSeveral,
  readState,
  readText,
  readTime,
  readZip,
} from '@backsight/domain/firm/records/cells';
import { ALL_RECORD_KINDS, fieldsOf, missingFields } from '@backsight/domain/firm/records/fields';
import { guessColumns, guessDays, guessMoney, headWords } from '@backsight/domain/firm/records/guess';

const said = (read: { ok: true; value: unknown } | { ok: false; says: string }): unknown => (read.ok ? read.value : `no: ${read.says}`);

describe('the guessed columns', () => {
  it.each([
    ['clients', ['Customer Name', 'E-Mail', 'Tel.'], { name: 0, email: 1, phone: 2 }],
    ['clients', ['LastName', 'FirstName', 'emailAddress', 'Mobile Phone'], { lastName: 0, firstName: 1, email: 2, phone: 3 }],
    [
      'properties',
      ['Yr. Built', 'Sq. Ft.', 'Property Address', 'City', 'ST', 'Zip Code'],
      { yearBuilt: 0, livingArea: 1, address: 2, town: 3, state: 4, zip: 5 },
    ],
    ['people', ['Job Title', 'Employee', 'Work Email', 'Cell', 'Hire Date'], { roles: 0, name: 1, email: 2, phone: 3, startedOn: 4 }],
    [
      'jobs',
      [
        'Report Sent',
        'Inspection Date',
        'Inspector 1',
        'Inspector 2',
        'Client',
        'Client Email',
        'Address',
        'City',
        'Amount Paid',
        'Inspection Type',
        'Job #',
      ],
      { deliveredOn: 0, day: 1, first: 2, second: 3, client: 4, clientEmail: 5, address: 6, town: 7, fee: 8, services: 9 },
    ],
  ] as const)('of %s with %j', (kind, heads, columns) => {
    expect(guessColumns(kind, heads)).toMatchObject(columns);
  });
  it('are those of every label as we write it', () => {
    for (const kind of ALL_RECORD_KINDS) {
      const fields = fieldsOf(kind);
      expect(
        guessColumns(
          kind,
          fields.map(({ label }) => label),
        ),
      ).toEqual(Object.fromEntries(fields.map(({ key }, at) => [key, at])));
    }
  });
  it('stay open where no head says anything', () => {
    expect(guessColumns('clients', ['A', '', 'Color'])).toEqual({});
    expect(missingFields('clients', {})).toEqual(['Name']);
    expect(missingFields('clients', { lastName: 3 })).toEqual([]);
  });
  it('compare heads as words', () => {
    expect(headWords('  E-Mail_Address (Primary) ')).toBe('e mail address primary');
    expect(headWords('FirstName')).toBe('first name');
    expect(headWords('Straße')).toBe('straße');
  });
});

describe('days', () => {
  it.each([
    ['2024-03-09', 'mdy', '2024-03-09'],
    ['3/9/2024', 'mdy', '2024-03-09'],
    ['3/9/2024', 'dmy', '2024-09-03'],
    ['03-09-24', 'mdy', '2024-03-09'],
    ['9.3.2024', 'dmy', '2024-03-09'],
    ['9-Mar-24', 'iso', '2024-03-09'],
    ['March 9, 2024', 'mdy', '2024-03-09'],
    ['Sat, 3/9/2024', 'mdy', '2024-03-09'],
    ['3/9/2024 2:30 PM', 'mdy', '2024-03-09'],
    ['2024-03-09T14:30:00Z', 'mdy', '2024-03-09'],
    ['2/29/2024', 'mdy', '2024-02-29'],
  ] as const)('%s as %s', (cell, order, day) => {
    expect(said(readDay(cell, order))).toBe(day);
  });
  it.each([
    ['2/29/2023', 'mdy', 'There is no day'],
    ['13/1/2024', 'mdy', 'There is no day "13/1/2024" when it is read as month/day/year'],
    ['3/9/2024', 'iso', 'is no day'],
    ['45360', 'mdy', 'as a spreadsheet counts it'],
    ['soon', 'mdy', '"soon" is no day'],
    ['0/0/2024', 'mdy', 'There is no day'],
  ] as const)('not %s as %s', (cell, order, says) => {
    expect(said(readDay(cell, order))).toContain(says);
  });
  it('have the order in which all of them can be read; month first where it is open', () => {
    expect(guessDays(['2024-03-09', ''])).toBe('iso');
    expect(guessDays(['3/9/2024', '12/31/2024'])).toBe('mdy');
    expect(guessDays(['3/9/2024', '31/12/2024'])).toBe('dmy');
    expect(guessDays(['3/9/2024'])).toBe('mdy');
    expect(guessDays([])).toBe('mdy');
  });
});

describe('amounts', () => {
  it.each([
    ['450', 45_000],
    ['$1,250.50', 125_050],
    ['450.5', 45_050],
    [' 450.00 USD', 45_000],
    ['0', 0],
  ])('%s in dollars', (cell, cents) => {
    expect(said(readMoney(cell, 'dollars'))).toBe(cents);
  });
  it.each([['450,00'], ['-450'], ['(450)'], ['=450'], ['12,34'], ['free'], ['1e3'], ['450000000']])('not %s', (cell) => {
    expect(said(readMoney(cell, 'dollars'))).toContain('no: ');
  });
  it('in cents only as whole numbers', () => {
    expect(said(readMoney('45000', 'cents'))).toBe(45_000);
    expect(said(readMoney('450.00', 'cents'))).toContain('no amount in cents');
  });
  it('far from what is usual are to be looked at', () => {
    expect(readMoney('4.50', 'dollars')).toMatchObject({ ok: true, look: expect.stringContaining('dollars or cents') });
    expect(readMoney('45000', 'dollars')).toMatchObject({ look: expect.stringContaining('$45000.00') });
    expect(readMoney('450', 'dollars')).toEqual({ ok: true, value: 45_000 });
  });
  it('are guessed to be cents only where they are all whole and large', () => {
    expect(guessMoney(['45000', '52500'])).toBe('cents');
    expect(guessMoney(['450', '525'])).toBe('dollars');
    expect(guessMoney(['45000', '$525'])).toBe('dollars');
    expect(guessMoney(['450.00'])).toBe('dollars');
  });
});

describe('other cells', () => {
  it('are read as people write them', () => {
    expect(said(readTime('9:00 AM'))).toBe(540);
    expect(said(readTime('12:15 pm'))).toBe(735);
    expect(said(readTime('12:15 am'))).toBe(15);
    expect(said(readTime('13:30'))).toBe(810);
    expect(said(readTime('9'))).toBe(540);
    expect(said(readEmail(' mailto:a.b+c@mail.example'))).toBe('a.b+c@mail.example');
    expect(said(readPhone('(920) 555-0100 x2'))).toBe('(920) 555-0100 x2');
    expect(said(readZip('54935-1234'))).toBe('54935');
    expect(readZip('2134')).toMatchObject({ value: '02134', look: expect.stringContaining('leave out zeros') });
    expect(said(readState('wisconsin'))).toBe('US-WI');
    expect(said(readState('Wi.'))).toBe('US-WI');
    expect(said(readCount('1,480', { least: 100, most: 3000, what: 'area' }))).toBe(1480);
    expect(said(readText('  two\n lines\u0007 ', 20))).toBe('two lines');
    expect(readSeveral('A Bell; B Crane + C Dorn / D Elm and E Fir')).toEqual(['A Bell', 'B Crane', 'C Dorn', 'D Elm', 'E Fir']);
  });
  it.each([
    [readTime('25:00'), 'no time of day'],
    [readTime('13:00 PM'), 'no time of day'],
    [readEmail('a@b'), 'no e-mail address'],
    [readEmail('a b@mail.example'), 'no e-mail address'],
    [readEmail('a..b@mail.example'), 'no e-mail address'],
    [readPhone('555'), 'no whole phone number'],
    [readPhone('9.20556E+09'), 'shortened'],
    [readZip('5493A'), 'five digits'],
    [readState('Tamarack'), 'no state'],
    [readCount('19x', { least: 1, most: 99, what: 'year' }), 'no year'],
    [readText('x'.repeat(21), 20), 'longer than 20'],
  ])('are said to be wrong %#', (read, says) => {
    expect(said(read)).toContain(says);
  });
});
