// Federal holidays with their in-lieu days, and business days counted over them.
import type { PublishedCase } from './publishedCase.ts';

const statute = '5 U.S.C. 6103 (a), (b); Executive Order 11582';

/** `observed` is the day off: the Friday before a Saturday, the Monday after a Sunday. */
export const holidayYears: (PublishedCase & { year: number; holidays: { name: string; date: string; observed: string }[] })[] = [
  {
    name: '2026',
    source: statute,
    status: 'statute from memory, dates computed',
    year: 2026,
    holidays: [
      { name: "New Year's Day", date: '2026-01-01', observed: '2026-01-01' },
      { name: 'Birthday of Martin Luther King, Jr.', date: '2026-01-19', observed: '2026-01-19' },
      { name: "Washington's Birthday", date: '2026-02-16', observed: '2026-02-16' },
      { name: 'Memorial Day', date: '2026-05-25', observed: '2026-05-25' },
      { name: 'Juneteenth National Independence Day', date: '2026-06-19', observed: '2026-06-19' },
      { name: 'Independence Day', date: '2026-07-04', observed: '2026-07-03' },
      { name: 'Labor Day', date: '2026-09-07', observed: '2026-09-07' },
      { name: 'Columbus Day', date: '2026-10-12', observed: '2026-10-12' },
      { name: 'Veterans Day', date: '2026-11-11', observed: '2026-11-11' },
      { name: 'Thanksgiving Day', date: '2026-11-26', observed: '2026-11-26' },
      { name: 'Christmas Day', date: '2026-12-25', observed: '2026-12-25' },
    ],
  },
  {
    name: '2027',
    source: statute,
    status: 'statute from memory, dates computed',
    year: 2027,
    holidays: [
      { name: "New Year's Day", date: '2027-01-01', observed: '2027-01-01' },
      { name: 'Birthday of Martin Luther King, Jr.', date: '2027-01-18', observed: '2027-01-18' },
      { name: "Washington's Birthday", date: '2027-02-15', observed: '2027-02-15' },
      { name: 'Memorial Day', date: '2027-05-31', observed: '2027-05-31' },
      { name: 'Juneteenth National Independence Day', date: '2027-06-19', observed: '2027-06-18' },
      { name: 'Independence Day', date: '2027-07-04', observed: '2027-07-05' },
      { name: 'Labor Day', date: '2027-09-06', observed: '2027-09-06' },
      { name: 'Columbus Day', date: '2027-10-11', observed: '2027-10-11' },
      { name: 'Veterans Day', date: '2027-11-11', observed: '2027-11-11' },
      { name: 'Thanksgiving Day', date: '2027-11-25', observed: '2027-11-25' },
      { name: 'Christmas Day', date: '2027-12-25', observed: '2027-12-24' },
    ],
  },
  {
    name: '2028',
    source: statute,
    status: 'statute from memory, dates computed',
    year: 2028,
    holidays: [
      { name: "New Year's Day", date: '2028-01-01', observed: '2027-12-31' },
      { name: 'Birthday of Martin Luther King, Jr.', date: '2028-01-17', observed: '2028-01-17' },
      { name: "Washington's Birthday", date: '2028-02-21', observed: '2028-02-21' },
      { name: 'Memorial Day', date: '2028-05-29', observed: '2028-05-29' },
      { name: 'Juneteenth National Independence Day', date: '2028-06-19', observed: '2028-06-19' },
      { name: 'Independence Day', date: '2028-07-04', observed: '2028-07-04' },
      { name: 'Labor Day', date: '2028-09-04', observed: '2028-09-04' },
      { name: 'Columbus Day', date: '2028-10-09', observed: '2028-10-09' },
      { name: 'Veterans Day', date: '2028-11-11', observed: '2028-11-10' },
      { name: 'Thanksgiving Day', date: '2028-11-23', observed: '2028-11-23' },
      { name: 'Christmas Day', date: '2028-12-25', observed: '2028-12-25' },
    ],
  },
];

/** Saturday, Sunday and observed holidays are skipped; the first day is not counted. */
export const businessDaysAdded: (PublishedCase & { from: string; days: number; day: string })[] = [
  { name: '2026-07-01 plus 3 business days', source: statute, status: 'computed', from: '2026-07-01', days: 3, day: '2026-07-07' },
  { name: '2026-07-02 plus 1 business days', source: statute, status: 'computed', from: '2026-07-02', days: 1, day: '2026-07-06' },
  { name: '2026-12-23 plus 5 business days', source: statute, status: 'computed', from: '2026-12-23', days: 5, day: '2026-12-31' },
  { name: '2026-06-18 plus 10 business days', source: statute, status: 'computed', from: '2026-06-18', days: 10, day: '2026-07-06' },
  { name: '2026-11-10 plus -2 business days', source: statute, status: 'computed', from: '2026-11-10', days: -2, day: '2026-11-06' },
  { name: '2027-12-30 plus 1 business days', source: statute, status: 'computed', from: '2027-12-30', days: 1, day: '2028-01-03' },
];

export const businessDaysCounted: (PublishedCase & { after: string; upTo: string; count: number })[] = [
  { name: 'after 2026-01-01 up to 2026-12-31', source: statute, status: 'computed', after: '2026-01-01', upTo: '2026-12-31', count: 250 },
  { name: 'after 2026-06-30 up to 2026-07-31', source: statute, status: 'computed', after: '2026-06-30', upTo: '2026-07-31', count: 22 },
  { name: 'after 2026-11-25 up to 2026-11-30', source: statute, status: 'computed', after: '2026-11-25', upTo: '2026-11-30', count: 2 },
];
