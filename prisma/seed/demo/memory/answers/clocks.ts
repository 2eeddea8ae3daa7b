// Answers about the clocks of callbacks, the on-call list and alerts of danger.
import type { Answer } from '../answer.ts';
import { all, by, one, type Row, type Tables } from '../tables.ts';
import { isoDay, sortBy } from '../when.ts';

const running = (t: Tables, callbackId: string): Row[] =>
  sortBy(
    by(t, 'callbackClock', 'callbackId', callbackId).filter(({ metAt, droppedAt }) => metAt === null && droppedAt === null),
    ({ dueAt }) => dueAt.getTime(),
  );

const duties = (t: Tables, from: string): Row[] =>
  sortBy(
    all(t, 'onCallDuty')
      .map((d): Row => ({
        ...d,
        on: d.isOn,
        fromDay: isoDay(d.fromDay),
        untilDay: isoDay(d.untilDay),
        name: one(t, 'person', d.personId)!.name,
      }))
      .filter(({ endedAt, untilDay }) => endedAt === null && (untilDay === null || untilDay >= from)),
    ({ position }) => position,
  );

const chains = (t: Tables, callbackId: string): Row[] =>
  by(t, 'dangerChain', 'callbackId', callbackId)
    .map((h): Row => ({
      ...h,
      answeredById: h.answeredBy,
      answeredBy: h.answeredBy === null ? null : one(t, 'person', h.answeredBy)!.name,
      alerts: by(t, 'dangerAlert', 'chainId', h.id).map((a) => ({ ...a, name: one(t, 'person', a.personId)!.name })),
    }))
    .toReversed();

const told = (t: Tables, callbackId: string, kinds: readonly string[]): Row[] =>
  sortBy(
    by(t, 'callbackEvent', 'callbackId', callbackId).filter(({ kind }) => kinds.includes(kind)),
    ({ seq }) => seq,
  ).map(({ kind, details, happenedAt }) => ({ kind, details, words: null, actor: null, at: happenedAt }));

export const CLOCK_ANSWERS: readonly Answer[] = [
  { marks: ['FROM clock_policy y'], reply: (t) => all(t, 'clockPolicy').toReversed() },
  { marks: ['FROM callback_clock k WHERE k.callback_id = $1::uuid AND k.met_at IS NULL'], reply: (t, [id]) => running(t, id) },
  {
    marks: ['FROM callback_pause s', 'WHERE s.callback_id = $1::uuid ORDER BY s.from_at'],
    reply: (t, [id]) => by(t, 'callbackPause', 'callbackId', id),
  },
  { marks: ['e.kind = ANY ($2::text[]) ORDER BY e.seq'], reply: (t, [id, kinds]) => told(t, id, kinds) },
  { marks: ['FROM on_call_duty d'], reply: (t, [from]) => duties(t, from) },
  {
    marks: ['SELECT DISTINCT a.person_id::text AS id FROM absence a'],
    reply: (t, [at]) =>
      all(t, 'absence')
        .filter(
          (a) =>
            a.withdrawnAt === null && a.state === 'approved' && a.startsAt <= new Date(at as string) && a.endsAt > new Date(at as string),
        )
        .map(({ personId }) => ({ id: personId })),
  },
  { marks: ['FROM danger_chain h LEFT JOIN person w', 'WHERE h.callback_id = $1::uuid'], reply: (t, [id]) => chains(t, id) },
];
