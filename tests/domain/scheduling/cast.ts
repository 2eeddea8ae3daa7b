// A small known firm for the scheduling tests: people, places and a plain question, each test changing one thing.
import type { Busy, PersonInput, StartQuery, World } from '@backsight/scheduling/world';

export const MON = '2026-07-13';
export const TUE = '2026-07-14';
export const WED = '2026-07-15';

export const BIRCHMERE = { lat: 44.02, lon: -89.1 };
/** 8 km north of Birchmere: 26 minutes by the estimate. */
export const PORT_ANSEL = { lat: 44.092, lon: -89.1 };

export const NINE = 540;

export const person = (id: string, change: Partial<PersonInput> = {}): PersonInput => ({
  id,
  name: { ann: 'Ann Bell', ben: 'Ben Cole', cal: 'Cal Dietz', dot: 'Dot Early' }[id] ?? id,
  base: BIRCHMERE,
  licensedUntil: '2026-12-15',
  qualifications: [],
  trainee: false,
  mayLead: true,
  shifts: [MON, TUE, WED].map((day) => ({ day, start: 480, end: 1020 })),
  off: [],
  missingAcknowledgements: [],
  recentMinutes: 0,
  ...change,
});

export const world = (change: Partial<World> = {}): World => ({
  people: [person('ann'), person('ben')],
  busy: [],
  pairRules: [],
  kit: [],
  ...change,
});

export const query = (change: Partial<StartQuery> = {}): StartQuery => ({
  place: BIRCHMERE,
  durationMinutes: 180,
  crewSize: 2,
  needEach: [],
  needAny: [],
  kit: [],
  days: [TUE],
  earliest: 480,
  latestEnd: 1020,
  grid: 15,
  limit: 100,
  utcOffsetMinutesByDay: { [MON]: -300, [TUE]: -300, [WED]: -300 },
  ...change,
});

export const visit = (id: string, personIds: string[], start: number, end: number, change: Partial<Busy> = {}): Busy => ({
  id,
  personIds,
  day: TUE,
  start,
  end,
  place: BIRCHMERE,
  kit: [],
  ...change,
});
