// What happened to a job, and the job as its events tell it.
import type { PropertyFacts } from '../shared/facts.ts';
import { formatUsd } from '../shared/money.ts';
import {
  NEED_KINDS,
  NEED_STATES,
  type JobKind,
  type JobState,
  type NeedKind,
  type NeedState,
  type PartyRole,
  type Source,
  type Terms,
} from './words.ts';

/** The job row as it stands; `version` counts its events. Days are ISO days. */
export type JobRow = {
  number: number;
  officeId: string;
  propertyId: string;
  kind: JobKind;
  state: JobState;
  facts: PropertyFacts;
  scheduleId: string;
  rulesId: string;
  parentId: string | null;
  terms: Terms;
  objectionOn: string | null;
  source: Source;
  clientAttends: boolean;
  version: number;
};

/** Details hold ids, codes, amounts and times: words of people are kept beside the event. */
export type JobEvent =
  | {
      kind: 'held' | 'placed';
      details: Omit<JobRow, 'state' | 'version'> & {
        services: readonly string[];
        totalCents: number;
        visitId: string;
        startsAt: string;
        first: string;
        second: string | null;
      };
    }
  | {
      kind: 'confirmed' | 'lapsed' | 'cancelled' | 'started' | 'visited' | 'reported';
      details: Record<string, string | number | boolean | null>;
    }
  /** No place was left for the visit; the job stays booked and gets another. */
  | { kind: 'taken_off'; details: { visitId: string; planId: string } }
  | { kind: 'moved' | 'visit_added'; details: { visitId: string; startsAt: string; first: string; second: string | null } }
  | { kind: 'hold_extended'; details: { visitId: string; until: string } }
  | { kind: 'observer_added' | 'observer_removed'; details: { visitId: string; personId: string } }
  | { kind: 'provider_chosen'; details: { service: string; providerId: string; agreedCents: number } }
  | { kind: 'facts_learned'; details: { facts: PropertyFacts; beforeCents: number; afterCents: number } }
  | { kind: 'need'; details: { need: NeedKind; state: NeedState } }
  | { kind: 'visit_ended'; details: { visitId: string; endedAs: string; reportOwed: string } }
  | { kind: 'fee_decided'; details: { what: string; percent: number; cents: number; waived: boolean; waivedCents?: number } }
  /** The discount given by hand; without percent and cents it was taken off. */
  | { kind: 'discounted'; details: { percent: number | null; cents: number | null; beforeCents: number; afterCents: number } }
  | { kind: 'attendance'; details: { arrives: string } }
  | { kind: 'report_owed'; details: { owed: boolean } }
  | { kind: 'party_added' | 'party_removed'; details: { partyId: string; role: PartyRole } };

/** What an event says besides its kind, in words, and the start that it gave to a visit; null where there is nothing to add. */
export function saysMore(event: JobEvent): { about: string | null; startsAt: string | null } {
  const said = (about: string | null, startsAt: string | null = null) => ({ about, startsAt });
  switch (event.kind) {
    case 'need':
      return said(`${NEED_KINDS[event.details.need]}, ${NEED_STATES[event.details.state]}`);
    case 'fee_decided':
      return said(event.details.waived ? 'waived' : `${formatUsd(event.details.cents)} charged`);
    case 'report_owed':
      return said(event.details.owed ? 'a report is owed' : 'no report is owed');
    case 'moved':
    case 'visit_added':
      return said(null, event.details.startsAt);
    default:
      return said(null);
  }
}

export type StoredEvent = JobEvent & { seq: number; state: JobState };

const apply = (row: JobRow | null, event: StoredEvent): JobRow | null => {
  const version = event.seq;
  if (event.kind === 'held' || event.kind === 'placed') {
    const { number, officeId, propertyId, kind, facts, scheduleId, rulesId, parentId, terms, objectionOn, source, clientAttends } =
      event.details;
    return {
      number,
      officeId,
      propertyId,
      kind,
      state: event.state,
      facts,
      scheduleId,
      rulesId,
      parentId,
      terms,
      objectionOn,
      source,
      clientAttends,
      version,
    };
  }
  if (row === null) return null;
  const facts = event.kind === 'facts_learned' ? event.details.facts : row.facts;
  return { ...row, state: event.state, facts, version };
};

/** The job as its events tell it, in the order of `seq`; null when the first event does not found a job. */
export const rebuild = (events: readonly StoredEvent[]): JobRow | null => events.reduce<JobRow | null>(apply, null);
