// What the desk has to do after visits that did not go as booked, for results that are awaited and looks that wait for their season.
import { WHERE_JOB, of, pick, row, type Statement } from './sql.ts';

export const DESK_LISTS = {
  toDecide: {
    needs: [],
    sql: pick(
      of(
        'job',
        `${row('n.id::text', 'j.id', WHERE_JOB, `'Job ' || j.number || CASE n.kind WHEN 'ending_fee' THEN ': what is charged for the visit that ended early' WHEN 'report_owed' THEN ': whether a report is owed' ELSE ': offer the walk-through by phone' END`, 'n.due_at')}
      FROM job_need n JOIN job j ON j.id = n.job_id JOIN property p ON p.id = j.property_id WHERE n.kind IN ('ending_fee', 'report_owed', 'walk_through') AND n.state IN ('open', 'asked')`,
      ),
      'at',
    ),
  },
  resultsAwaited: {
    needs: [],
    sql: pick(
      of(
        'tests',
        `${row('t.id::text', 'j.id', WHERE_JOB, `t.what || ' ' || t.serial || ', ' || coalesce(last.step, 'noted')`, 'last.happened_at')} FROM test_item t JOIN job j ON j.id = t.job_id JOIN property p ON p.id = j.property_id
      LEFT JOIN LATERAL (SELECT s.step, s.happened_at FROM test_step s WHERE s.item_id = t.id ORDER BY s.happened_at DESC, s.recorded_at DESC LIMIT 1) last ON true WHERE t.awaited`,
      ),
      'at',
    ),
  },
  laterVisits: {
    needs: [],
    sql: pick(
      of(
        'job',
        `${row(`j.id::text || k.key`, 'j.id', WHERE_JOB, `k.name || ' is not booked'`, `(SELECT max(i.ends_at) FROM visit i WHERE i.job_id = j.id AND i.kind = 'inspection' AND i.live) + k.after_hours * interval '1 hour'`)} FROM job j JOIN property p ON p.id = j.property_id
      JOIN job_service js ON js.job_id = j.id JOIN service s ON s.key = js.service_key JOIN visit_kind k ON k.key = s.extra_visit
      WHERE j.state IN ('booked', 'on_site', 'visited') AND NOT EXISTS (SELECT FROM visit v WHERE v.job_id = j.id AND v.kind = k.key AND v.live)`,
      ),
      'at',
    ),
  },
  inquiriesDue: {
    needs: ['today'],
    sql: pick(
      of(
        'inquiry',
        `${row('i.id::text', 'i.id', 'i.caller', `'Asked for a price' || CASE WHEN i.note = '' THEN '' ELSE ': ' || i.note END`, 'NULL::timestamptz', 'i.follow_up_on::text')} FROM inquiry i WHERE i.closed_at IS NULL AND i.follow_up_on <= $1::date`,
      ),
      'day',
    ),
  },
  laterLooks: {
    needs: ['today'],
    sql: pick(
      of(
        'job',
        `${row('l.id::text', 'j.id', WHERE_JOB, 'l.label', 'NULL::timestamptz', 'l.remind_on::text')} FROM later_look l JOIN job j ON j.id = l.job_id JOIN property p ON p.id = j.property_id
      WHERE l.state = 'offered' AND l.remind_on <= $1::date AND j.state IN ('booked', 'on_site', 'visited', 'reported')`,
      ),
      'day',
    ),
  },
} as const satisfies Record<string, Statement>;
