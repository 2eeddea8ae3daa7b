// What is to be done after a callback was decided or closed.
import { WHERE_JOB, of, pick, row, type Statement } from './sql.ts';

const CALLBACK = `JOIN callback c ON c.id = x.callback_id JOIN job j ON j.id = c.job_id JOIN property p ON p.id = j.property_id`;

export const AFTER_LISTS = {
  /** One's own, and those of people who have left. */
  afterChecks: {
    needs: ['me', 'today'],
    sql: pick(
      of(
        'callback',
        `${row('x.id::text', 'c.id', `'Callback ' || c.number || ', ' || p.address`, `coalesce(nullif(c.place, ''), replace(c.system, '_', ' '))`, 'NULL::timestamptz', 'x.due_on::text')} FROM after_check x ${CALLBACK} JOIN person w ON w.id = x.person_id
      WHERE x.outcome IS NULL AND x.due_on <= $2::date AND (x.person_id = $1::uuid OR (w.ended_on <= $2::date AND NOT c.owner_only))`,
      ),
      'day',
    ),
  },
  appealsToDecide: {
    needs: [],
    sql: pick(
      of(
        'callback',
        `${row('x.id::text', 'c.id', `'Callback ' || c.number || ', ' || ${WHERE_JOB}`, `'Somebody asks an owner to look at the decision again'`, 'NULL::timestamptz', 'x.due_on::text')} FROM appeal x ${CALLBACK} WHERE x.result IS NULL`,
      ),
      'day',
    ),
  },
} as const satisfies Record<string, Statement>;
