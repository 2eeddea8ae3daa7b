// Changes of the clock in United States zones, and ISO week dates.
import type { PublishedCase } from './publishedCase.ts';

const iana = 'IANA time zone database 2025b; Energy Policy Act of 2005, section 110 (15 U.S.C. 260a)';
const iso = 'ISO 8601-1:2019, week dates';

type Change = { utc: string; offsetBefore: number; offsetAfter: number };

/** Offsets in minutes east of UTC; the changes are all that happen in 2026 to 2028. */
export const clockChanges: (PublishedCase & { zone: string; changes: Change[] })[] = [
  {
    name: 'America/New_York',
    source: iana,
    status: 'computed',
    zone: 'America/New_York',
    changes: [
      { utc: '2026-03-08T07:00Z', offsetBefore: -300, offsetAfter: -240 },
      { utc: '2026-11-01T06:00Z', offsetBefore: -240, offsetAfter: -300 },
      { utc: '2027-03-14T07:00Z', offsetBefore: -300, offsetAfter: -240 },
      { utc: '2027-11-07T06:00Z', offsetBefore: -240, offsetAfter: -300 },
      { utc: '2028-03-12T07:00Z', offsetBefore: -300, offsetAfter: -240 },
      { utc: '2028-11-05T06:00Z', offsetBefore: -240, offsetAfter: -300 },
    ],
  },
  {
    name: 'America/Chicago',
    source: iana,
    status: 'computed',
    zone: 'America/Chicago',
    changes: [
      { utc: '2026-03-08T08:00Z', offsetBefore: -360, offsetAfter: -300 },
      { utc: '2026-11-01T07:00Z', offsetBefore: -300, offsetAfter: -360 },
      { utc: '2027-03-14T08:00Z', offsetBefore: -360, offsetAfter: -300 },
      { utc: '2027-11-07T07:00Z', offsetBefore: -300, offsetAfter: -360 },
      { utc: '2028-03-12T08:00Z', offsetBefore: -360, offsetAfter: -300 },
      { utc: '2028-11-05T07:00Z', offsetBefore: -300, offsetAfter: -360 },
    ],
  },
  {
    name: 'America/Denver',
    source: iana,
    status: 'computed',
    zone: 'America/Denver',
    changes: [
      { utc: '2026-03-08T09:00Z', offsetBefore: -420, offsetAfter: -360 },
      { utc: '2026-11-01T08:00Z', offsetBefore: -360, offsetAfter: -420 },
      { utc: '2027-03-14T09:00Z', offsetBefore: -420, offsetAfter: -360 },
      { utc: '2027-11-07T08:00Z', offsetBefore: -360, offsetAfter: -420 },
      { utc: '2028-03-12T09:00Z', offsetBefore: -420, offsetAfter: -360 },
      { utc: '2028-11-05T08:00Z', offsetBefore: -360, offsetAfter: -420 },
    ],
  },
  {
    name: 'America/Phoenix',
    source: iana,
    status: 'computed',
    zone: 'America/Phoenix',
    changes: [],
  },
  {
    name: 'America/Los_Angeles',
    source: iana,
    status: 'computed',
    zone: 'America/Los_Angeles',
    changes: [
      { utc: '2026-03-08T10:00Z', offsetBefore: -480, offsetAfter: -420 },
      { utc: '2026-11-01T09:00Z', offsetBefore: -420, offsetAfter: -480 },
      { utc: '2027-03-14T10:00Z', offsetBefore: -480, offsetAfter: -420 },
      { utc: '2027-11-07T09:00Z', offsetBefore: -420, offsetAfter: -480 },
      { utc: '2028-03-12T10:00Z', offsetBefore: -480, offsetAfter: -420 },
      { utc: '2028-11-05T09:00Z', offsetBefore: -420, offsetAfter: -480 },
    ],
  },
];

/** `earlierOffset`: the instant read with the offset before the change; `laterOffset`: with the one after it. */
export const localTimes: (PublishedCase & { zone: string; local: string; kind: string; earlierOffset: string; laterOffset: string })[] = [
  {
    name: 'local time 2026-03-08T02:30:00 America/New_York',
    source: iana,
    status: 'computed',
    zone: 'America/New_York', local: '2026-03-08T02:30:00', kind: 'gap',
    earlierOffset: '2026-03-08T07:30:00Z',
    laterOffset: '2026-03-08T06:30:00Z',
  },
  {
    name: 'local time 2026-11-01T01:30:00 America/New_York',
    source: iana,
    status: 'computed',
    zone: 'America/New_York', local: '2026-11-01T01:30:00', kind: 'ambiguous',
    earlierOffset: '2026-11-01T05:30:00Z',
    laterOffset: '2026-11-01T06:30:00Z',
  },
  {
    name: 'local time 2026-03-08T01:59:00 America/Denver',
    source: iana,
    status: 'computed',
    zone: 'America/Denver', local: '2026-03-08T01:59:00', kind: 'normal',
    earlierOffset: '2026-03-08T08:59:00Z',
    laterOffset: '2026-03-08T08:59:00Z',
  },
  {
    name: 'local time 2026-03-08T02:30:00 America/Phoenix',
    source: iana,
    status: 'computed',
    zone: 'America/Phoenix', local: '2026-03-08T02:30:00', kind: 'normal',
    earlierOffset: '2026-03-08T09:30:00Z',
    laterOffset: '2026-03-08T09:30:00Z',
  },
  {
    name: 'local time 2027-03-14T02:00:00 America/Chicago',
    source: iana,
    status: 'computed',
    zone: 'America/Chicago', local: '2027-03-14T02:00:00', kind: 'gap',
    earlierOffset: '2027-03-14T08:00:00Z',
    laterOffset: '2027-03-14T07:00:00Z',
  },
  {
    name: 'local time 2027-11-07T01:00:00 America/Chicago',
    source: iana,
    status: 'computed',
    zone: 'America/Chicago', local: '2027-11-07T01:00:00', kind: 'ambiguous',
    earlierOffset: '2027-11-07T06:00:00Z',
    laterOffset: '2027-11-07T07:00:00Z',
  },
];

/** Minutes that pass, and minutes that the clock on the wall seems to move. */
export const spans: (PublishedCase & { zone: string; from: string; to: string; elapsed: number; wallClock: number })[] = [
  {
    name: 'elapsed minutes 2026-03-08T01:00:00 to 2026-03-08T04:00:00 America/New_York',
    source: iana,
    status: 'computed',
    zone: 'America/New_York', from: '2026-03-08T01:00:00', to: '2026-03-08T04:00:00', elapsed: 120, wallClock: 180,
  },
  {
    name: 'elapsed minutes 2026-11-01T00:30:00 to 2026-11-01T03:30:00 America/New_York',
    source: iana,
    status: 'computed',
    zone: 'America/New_York', from: '2026-11-01T00:30:00', to: '2026-11-01T03:30:00', elapsed: 240, wallClock: 180,
  },
  {
    name: 'elapsed minutes 2026-03-07T09:00:00 to 2026-03-08T09:00:00 America/Los_Angeles',
    source: iana,
    status: 'computed',
    zone: 'America/Los_Angeles', from: '2026-03-07T09:00:00', to: '2026-03-08T09:00:00', elapsed: 1380, wallClock: 1440,
  },
];

export const dayLengths: (PublishedCase & { zone: string; day: string; hours: number })[] = [
  { name: 'length of day 2026-03-08 America/New_York', source: iana, status: 'computed', zone: 'America/New_York', day: '2026-03-08', hours: 23 },
  { name: 'length of day 2026-11-01 America/New_York', source: iana, status: 'computed', zone: 'America/New_York', day: '2026-11-01', hours: 25 },
  { name: 'length of day 2026-03-08 America/Phoenix', source: iana, status: 'computed', zone: 'America/Phoenix', day: '2026-03-08', hours: 24 },
];

export const isoWeeks: (PublishedCase & { day: string; week: string })[] = [
  { name: 'ISO week of 2005-01-01', source: iso, status: 'from memory, recomputed', day: '2005-01-01', week: '2004-W53-6' },
  { name: 'ISO week of 2005-12-31', source: iso, status: 'from memory, recomputed', day: '2005-12-31', week: '2005-W52-6' },
  { name: 'ISO week of 2007-01-01', source: iso, status: 'from memory, recomputed', day: '2007-01-01', week: '2007-W01-1' },
  { name: 'ISO week of 2026-01-01', source: iso, status: 'computed', day: '2026-01-01', week: '2026-W01-4' },
  { name: 'ISO week of 2026-12-31', source: iso, status: 'computed', day: '2026-12-31', week: '2026-W53-4' },
  { name: 'ISO week of 2027-01-01', source: iso, status: 'computed', day: '2027-01-01', week: '2026-W53-5' },
  { name: 'ISO week of 2028-01-01', source: iso, status: 'computed', day: '2028-01-01', week: '2027-W52-6' },
];
