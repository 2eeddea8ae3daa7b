// Lines of iCalendar and rows of comma-separated text.
import type { PublishedCase } from './publishedCase.ts';

const ical = 'RFC 5545 (B. Desruisseaux, 2009)';
const csv = 'RFC 4180 (Y. Shafranovich, 2005), section 2, rules 1 to 7';

/** Any folding is right whose lines have at most `octets` octets without their end, split no character, and unfold to the text. */
export const folded: (PublishedCase & { text: string; octets: number })[] = [
  {
    name: 'a summary of 120 ASCII characters',
    source: `${ical}, section 3.1`,
    status: 'computed with Python 3.11',
    text: 'inspection pair A-B, crawl space and attic, bring ladder; inspection pair A-B, crawl space and attic, bring ladder; ',
    octets: 75,
  },
  {
    name: 'characters of several octets',
    source: `${ical}, section 3.1`,
    status: 'computed with Python 3.11',
    text: 'Prüfung Dachstuhl – Feuchte 18 % · Größe ≥ 2 m; Prüfung Dachstuhl – Feuchte 18 % · Größe ≥ 2 m; Prüfung Dachstuhl – Feuchte 18 % · Größe ≥ 2 m; ',
    octets: 75,
  },
];

export const escaped: (PublishedCase & { text: string; escaped: string })[] = [
  {
    name: 'semicolon, comma, backslash and line break',
    source: `${ical}, section 3.3.11`,
    status: 'computed with Python 3.11',
    text: 'Gate code; 4,5\\6\nsecond line',
    escaped: 'Gate code\\; 4\\,5\\\\6\\nsecond line',
  },
];

export const spans: (PublishedCase & { zone: string; start: string; end: string; lines: [string, string] })[] = [
  {
    name: 'a visit before the clock changes in spring',
    source: `${ical}, sections 3.6.1 and 3.3.5`,
    status: 'computed with Python zoneinfo, tzdata 2025b',
    zone: 'America/New_York',
    start: '2026-03-07T09:00:00',
    end: '2026-03-07T12:00:00',
    lines: ['DTSTART:20260307T140000Z', 'DTEND:20260307T170000Z'],
  },
  {
    name: 'a visit after the clock has changed',
    source: `${ical}, sections 3.6.1 and 3.3.5`,
    status: 'computed with Python zoneinfo, tzdata 2025b',
    zone: 'America/New_York',
    start: '2026-03-09T09:00:00',
    end: '2026-03-09T12:00:00',
    lines: ['DTSTART:20260309T130000Z', 'DTEND:20260309T160000Z'],
  },
];

export const written: (PublishedCase & { rows: string[][]; text: string })[] = [
  {
    name: 'quotes, commas and line breaks',
    source: csv,
    status: 'computed with the csv module of Python 3.11',
    rows: [
      ['job', 'note', 'fee'],
      ['J-1', 'leak, "left" gable', '450.00'],
      ['J-2', 'two\nlines', '0.00'],
    ],
    text: 'job,note,fee\r\nJ-1,"leak, ""left"" gable",450.00\r\nJ-2,"two\nlines",0.00\r\n',
  },
];
