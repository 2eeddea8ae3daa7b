// What a spreadsheet comes to when it is held against what is on file: rows that are new, with their ids, and what is to be said of the others.
import type { Role } from '@backsight/domain/people/roles';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import type { Reader } from '@backsight/store/database';
import type { Frame } from '@backsight/store/firm/records';
import type { Place } from './known.ts';
import type { Mapped, Problem } from './line.ts';

export type NewPerson = {
  id: string;
  name: string;
  email: string;
  phone: string;
  roles: Role[];
  trainee: boolean;
  homeAddress: string;
  home: { lat: number; lon: number };
  startedOn: string;
  endedOn: string | null;
};
export type NewParty = { id: string; name: string; email: string | null; phone: string | null };
export type NewProperty = { id: string; address: string; town: string; key: string; place: Place; facts: PropertyFacts };
export type NewJob = {
  id: string;
  day: string;
  minute: number | null;
  propertyId: string;
  partyId: string;
  services: string[];
  cents: number | null;
  people: string[];
  deliveredOn: string | null;
  reference: string;
  facts: PropertyFacts;
};

/** Rows of the file: new, on file already, left out, to be looked at; and the clients and properties that come along with jobs. */
export type Counts = { rows: number; fresh: number; known: number; left: number; look: number; clients: number; properties: number };
export type Prepared = {
  counts: Counts;
  problems: Problem[];
  people: NewPerson[];
  parties: NewParty[];
  properties: NewProperty[];
  jobs: NewJob[];
};

export type Tell = (phase: 'reading' | 'comparing' | 'writing' | 'taking out', done: number, total: number) => Promise<void>;
/** What every kind of record is judged with. `roles`: of whoever brings in. */
export type Context = {
  reader: Reader;
  mapped: Mapped;
  frame: Frame;
  today: string;
  roles: readonly Role[];
  newId: () => string;
  tell: Tell;
};
