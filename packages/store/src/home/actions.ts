// Lists of the home about corrective actions: what somebody sees to, and what somebody reviews.
import { of, pick, row, type Statement } from './sql.ts';

export const ACTION_LISTS = {
  /** Due within two weeks, over, or open again because the step failed. */
  myActions: {
    needs: ['me', 'today'],
    sql: pick(
      of(
        'action',
        `${row('a.id::text', 'a.id', 'a.title', `'Corrective action ' || a.number || CASE WHEN a.reopened_at IS NOT NULL THEN ': open again' WHEN a.due_on < $2::date THEN ', overdue' ELSE '' END`, 'NULL::timestamptz', 'a.due_on::text')}
      FROM corrective_action a WHERE a.owner_id = $1::uuid AND a.state = 'open' AND (a.due_on <= $2::date + 14 OR a.reopened_at IS NOT NULL)`,
      ),
      'day',
    ),
  },
  myReviews: {
    needs: ['me', 'today'],
    sql: pick(
      of(
        'action',
        `${row('a.id::text', 'a.id', 'a.title', `'Corrective action ' || a.number || ': did it work?'`, 'NULL::timestamptz', 'a.review_on::text')}
      FROM corrective_action a WHERE a.reviewer_id = $1::uuid AND a.state <> 'dropped' AND a.review_on <= $2::date`,
      ),
      'day',
    ),
  },
} satisfies Record<string, Statement>;
