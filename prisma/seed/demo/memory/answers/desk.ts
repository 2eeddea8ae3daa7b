// Answers about devices and samples, looks put off, absences, miles, and houses that somebody is kept away from.
import { touched, type Answer } from '../answer.ts';
import { by, one, type Row, type Tables } from '../tables.ts';
import { isoDay, sortBy } from '../when.ts';

function testItem(t: Tables, item: Row) {
  const steps = sortBy(
    by(t, 'testStep', 'itemId', item.id),
    (s) => s.happenedAt.getTime(),
    (s) => s.recordedAt.getTime(),
  );
  return {
    ...item,
    steps: steps.map(({ step, happenedAt, recordedBy, details, textId }) => ({
      step,
      happenedAt,
      by: one(t, 'person', recordedBy)!.name,
      details,
      words: textId === null ? null : one(t, 'keptText', textId)!.body,
    })),
  };
}

const HALF_DAY = 12 * 3_600_000;

function pickupToday(t: Tables, [jobId, personId, at]: readonly string[]) {
  const found = by(t, 'visit', 'jobId', jobId).filter(
    (v) =>
      v.state === 'booked' &&
      one(t, 'visitKind', v.kind, 'key')!.afterHours > 0 &&
      by(t, 'assignment', 'visitId', v.id).some((a) => a.personId === personId) &&
      Math.abs(v.startsAt.getTime() - new Date(at!).getTime()) <= HALF_DAY,
  );
  return sortBy(found, (v) => v.startsAt.getTime())
    .slice(0, 1)
    .map(({ id }) => ({ id }));
}

const lookOf = ({ ruleKey, remindOn, ...look }: Row) => ({ ...look, key: ruleKey, remindOn: isoDay(remindOn) });

function visitsOfPerson(t: Tables, [personId, from, to, now]: readonly string[]) {
  return sortBy(
    by(t, 'assignment', 'personId', personId).filter((a) => a.live && a.startsAt < new Date(to!) && a.endsAt > new Date(from!)),
    (a) => a.startsAt.getTime(),
  )
    .map(({ visitId }) => one(t, 'visit', visitId)!)
    .filter((v) => v.state !== 'done' && (v.state !== 'held' || v.holdEndsAt > new Date(now!)))
    .map((v) => {
      const job = one(t, 'job', v.jobId)!;
      const place = one(t, 'property', job.propertyId)!;
      const address = `${place.address}, ${place.town}`;
      return { visitId: v.id, jobNumber: job.number, address, startsAt: v.startsAt, endsAt: v.endsAt };
    });
}

function withdrawMiles(t: Tables, [personId, day, at]: readonly any[]) {
  const rows = by(t, 'mileageEntry', 'personId', personId).filter((m) => isoDay(m.day) === day && m.withdrawnAt === null);
  for (const row of rows) row.withdrawnAt = at;
  return touched(rows.length);
}

const LOOK = 'visit_id::text AS "visitId" FROM later_look';

export const DESK_ANSWERS: readonly Answer[] = [
  { marks: ['SELECT 1 AS one FROM test_item WHERE id'], reply: (t, [id]) => by(t, 'testItem', 'id', id) },
  {
    marks: [`'happenedAt', s.happened_at`, 'WHERE t.id = $1::uuid'],
    reply: (t, [id]) => by(t, 'testItem', 'id', id).map((i) => testItem(t, i)),
  },
  { marks: ['k.after_hours > 0 JOIN assignment a'], reply: pickupToday },
  {
    marks: [LOOK, 'WHERE job_id = $1::uuid'],
    reply: (t, [jobId]) =>
      sortBy(
        by(t, 'laterLook', 'jobId', jobId).map(lookOf),
        ({ remindOn }) => remindOn!,
        ({ key }) => key,
      ),
  },
  { marks: [LOOK, 'WHERE id = $1::uuid FOR UPDATE'], reply: (t, [id]) => by(t, 'laterLook', 'id', id).map(lookOf) },
  { marks: ['state, decision FROM absence WHERE id = $1::uuid'], reply: (t, [id]) => by(t, 'absence', 'id', id).map((a) => ({ ...a })) },
  { marks: [`v.state <> 'done' AND (v.state <> 'held'`, 'AS "jobNumber"'], reply: visitsOfPerson },
  { marks: ['UPDATE mileage_entry SET withdrawn_at'], reply: withdrawMiles },
  {
    marks: ['SELECT id::text AS id FROM property WHERE id = $1::uuid'],
    reply: (t, [id]) => by(t, 'property', 'id', id).map((p) => ({ id: p.id })),
  },
  {
    marks: ['FROM observer o JOIN person p ON p.id = o.person_id WHERE o.visit_id = $1::uuid ORDER BY p.name'],
    reply: (t, [visitId]) =>
      sortBy(
        by(t, 'observer', 'visitId', visitId).map(({ personId, reason }) => {
          const { name, email } = one(t, 'person', personId)!;
          return { personId, name, email, reason };
        }),
        ({ name }) => name,
      ),
  },
];
