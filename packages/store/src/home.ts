// The lists of the homes: what needs doing now, one statement each. A read across areas: it writes nothing.
import type { Reader } from './database.ts';
import { AFTER_LISTS } from './home/after.ts';
import { CALLBACK_LISTS } from './home/callbacks.ts';
import { ACTION_LISTS } from './home/actions.ts';
import { DESK_LISTS } from './home/desk.ts';
import { MONEY_LISTS } from './home/money.ts';
import { JOB, WHERE_JOB, of, pick, row, type HomeAsk, type Statement } from './home/sql.ts';

/** One line of a list: what it is, where it is handled, and the instant or day that makes it press. */
export type HomeRow = {
  id: string;
  thingKind: string;
  thingId: string;
  title: string;
  detail: string;
  at: Date | null;
  day: string | null;
  all: number;
};

/** What may be missing until the office is open again, in words. */
const MISSING = `CASE n.kind WHEN 'tenant_notice' THEN 'notice to the tenant' WHEN 'closed_house' THEN 'house closed before the test' ELSE n.kind END`;

/** 'agreement-unsigned' and the like, as words. */
const inWords = (codes: string): string => `replace(array_to_string(${codes}, ', '), '-', ' ')`;

const MAIL = `${row('m.id::text', 'm.id', 'm.subject', `'To ' || m.to_name || ': ' || coalesce(m.last_error, 'not sent')`, 'm.recorded_at')} FROM outgoing_mail m`;
const NOT_RESENT = `NOT EXISTS (SELECT FROM outgoing_mail n WHERE n.resend_of = m.id)`;

export const HOME_LISTS = {
  ...CALLBACK_LISTS,
  ...DESK_LISTS,
  ...ACTION_LISTS,
  ...AFTER_LISTS,
  ...MONEY_LISTS,
  holdsEnding: {
    needs: ['now'],
    sql: pick(
      of(
        'job',
        `${row('v.id::text', 'j.id', WHERE_JOB, `'Job ' || j.number || ' is held'`, 'v.hold_ends_at')} FROM visit v ${JOB} WHERE v.state = 'held' AND v.hold_ends_at > $1::timestamptz`,
      ),
      'at',
    ),
  },
  clientsToCall: {
    needs: ['now'],
    sql: pick(
      of(
        'plan',
        `${row('c.id::text', 'c.plan_id', WHERE_JOB, `CASE WHEN c.because = 'left_out' THEN 'No time now: agree on another' ELSE 'The visit begins at another time' END`, 'c.was_at')} FROM plan_call c JOIN visit v ON v.id = c.visit_id ${JOB}
      WHERE c.done_at IS NULL AND (j.state = 'booked' OR c.was_at > $1::timestamptz - interval '7 days')`,
      ),
      'at',
    ),
  },
  jobsWithoutTime: {
    needs: [],
    sql: pick(
      of(
        'job',
        `${row('j.id::text', 'j.id', WHERE_JOB, `'Job ' || j.number || ' is booked, but has no visit'`, 'NULL::timestamptz', 'j.objection_on::text')} FROM job j JOIN property p ON p.id = j.property_id
      WHERE j.state = 'booked' AND NOT EXISTS (SELECT FROM visit v WHERE v.job_id = j.id AND v.live)`,
      ),
      'day NULLS LAST, title',
    ),
  },
  tomorrowMissing: {
    needs: ['tomorrow', 'zone', 'nextOpen'],
    sql: pick(
      of(
        'job',
        `${row('v.id::text', 'j.id', WHERE_JOB, `'Still to get: ' || array_to_string(missing.kinds, ', ')`, 'v.starts_at')} FROM visit v ${JOB}
      CROSS JOIN LATERAL (SELECT array_agg(${MISSING} || CASE n.state WHEN 'open' THEN '' ELSE ' (' || n.state || ')' END ORDER BY n.due_at, n.kind) AS kinds FROM job_need n WHERE n.job_id = j.id AND (n.kind IN ('access', 'utilities', 'signature', 'tenant_notice') OR (n.kind = 'closed_house' AND v.kind = j.kind)) AND n.state IN ('open', 'asked', 'refused')) missing
      WHERE v.state = 'booked' AND v.starts_at >= $1::date::timestamp AT TIME ZONE $2 AND v.starts_at < ($3::date + 1)::timestamp AT TIME ZONE $2 AND missing.kinds IS NOT NULL`,
      ),
      'at',
    ),
  },
  unsigned: {
    needs: [],
    sql: pick(
      of(
        'agreement',
        `${row('j.id::text', 'j.id', WHERE_JOB, `'Not signed by ' || string_agg(DISTINCT c.name || coalesce((SELECT CASE x.kind WHEN 'declined' THEN ' (declined)' ELSE ' (wants paper)' END FROM signer_answer x WHERE x.signer_id = s.id ORDER BY x.recorded_at DESC, x.id DESC LIMIT 1), ''), ', ')`, 'min(v.starts_at)')} FROM agreement a JOIN signer s ON s.agreement_id = a.id JOIN party c ON c.id = s.party_id
      JOIN job j ON j.id = a.job_id JOIN property p ON p.id = j.property_id JOIN visit v ON v.job_id = j.id AND v.state = 'booked'
      WHERE NOT EXISTS (SELECT FROM signature g WHERE g.signer_id = s.id) AND NOT EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = a.id) AND a.remedy_id IS NULL GROUP BY j.id, p.id`,
      ),
      'at',
    ),
  },
  /** What was tried in the last hour is tried again by itself; what was refused for good cannot be. */
  mailFailed: {
    needs: ['now'],
    sql: pick(
      `${of('mail_refused', `${MAIL} WHERE m.state = 'refused' AND ${NOT_RESENT}`)} UNION ALL ${of(
        'mail',
        `${MAIL} WHERE (m.state = 'given_up' AND ${NOT_RESENT}) OR (m.state = 'waiting' AND m.last_error IS NOT NULL AND m.recorded_at < $1::timestamptz - interval '1 hour')`,
      )}`,
      'at DESC',
    ),
  },
  mailPaused: {
    needs: [],
    sql: pick(
      of(
        'mail',
        `${row(`'pause'`, `'pause'`, `'Mail is paused by ' || w.name`, 's.pause_reason', 's.paused_at')} FROM mail_settings s JOIN person w ON w.id = s.paused_by`,
      ),
      'at',
    ),
  },
  addressesToAsk: {
    needs: [],
    sql: pick(
      of(
        'mail',
        `${row(`b.id::text || w.id::text`, 'b.id', 'w.name', `b.address || ': ' || b.reason`, 'b.recorded_at')} FROM bad_address b JOIN (SELECT id, name, email FROM party UNION ALL SELECT id, name, email FROM person WHERE ended_on IS NULL) w ON lower(w.email) = b.address WHERE b.cleared_at IS NULL`,
      ),
      'at DESC',
    ),
  },
  myVisits: {
    needs: ['me', 'today', 'zone'],
    sql: pick(
      of(
        'visit',
        `${row('v.id::text', 'v.id', WHERE_JOB, `k.name || coalesce(' with ' || o.name, '')`, 'v.starts_at')} FROM assignment a JOIN visit v ON v.id = a.visit_id ${JOB} JOIN visit_kind k ON k.key = v.kind
      LEFT JOIN assignment b ON b.visit_id = v.id AND b.person_id <> a.person_id LEFT JOIN person o ON o.id = b.person_id
      WHERE a.person_id = $1::uuid AND a.live AND v.state IN ('booked', 'on_site', 'done', 'ended') AND (v.starts_at AT TIME ZONE $3)::date = $2::date`,
      ),
      'at',
    ),
  },
  myAcknowledgements: {
    needs: ['me', 'now'],
    sql: pick(
      of(
        'acknowledgement',
        `${row('r.id::text', 'r.id', `p.title || ', revision ' || r.number`, `CASE WHEN r.acknowledge_by < $2::timestamptz THEN 'Until you do, you are not offered for new visits' ELSE 'Read what changed and acknowledge it' END`, 'r.acknowledge_by')}
      FROM procedure_revision r JOIN procedure p ON p.id = r.procedure_id JOIN in_force_period f ON f.revision_id = r.id AND (f.until_at IS NULL OR f.until_at > $2::timestamptz)
      WHERE r.state = 'approved' AND r.asks AND NOT EXISTS (SELECT FROM acknowledgement a WHERE a.revision_id = r.id AND a.person_id = $1::uuid)`,
      ),
      'at',
    ),
  },
  myAccounts: {
    needs: ['me'],
    sql: pick(
      of(
        'account',
        `${row('q.id::text', 'c.id', WHERE_JOB, `'Job ' || j.number || ': write what you saw and did'`, 'q.happened_at')} FROM account_request q JOIN callback c ON c.id = q.callback_id
      JOIN job j ON j.id = c.job_id JOIN property p ON p.id = j.property_id WHERE q.person_id = $1::uuid AND NOT EXISTS (SELECT FROM account a WHERE a.request_id = q.id)
        AND EXISTS (SELECT FROM visit v JOIN assignment s ON s.visit_id = v.id WHERE v.job_id = c.job_id AND s.person_id = q.person_id)`,
      ),
      'at',
    ),
  },
  myRecords: {
    needs: ['me', 'now'],
    sql: pick(
      of(
        'record',
        `${row('s.id::text', 'j.id', WHERE_JOB, `'Site record still open'`, 'v.ends_at')} FROM site_record s JOIN visit v ON v.id = s.visit_id ${JOB} JOIN assignment a ON a.visit_id = v.id AND a.person_id = $1::uuid WHERE s.state = 'open' AND v.ends_at < $2::timestamptz`,
      ),
      'at',
    ),
  },
  draftsToApprove: {
    needs: ['me'],
    sql: pick(
      of(
        'revision',
        `${row('r.id::text', 'r.id', `p.title || ', revision ' || r.number`, 'r.reason', 'r.recorded_at')} FROM procedure_revision r JOIN procedure p ON p.id = r.procedure_id WHERE r.state = 'draft' AND r.author_id <> $1::uuid`,
      ),
      'at',
    ),
  },
  textsToApprove: {
    needs: ['me'],
    sql: pick(
      of(
        'text',
        `${row('t.id::text', 't.id', `t.title || ', number ' || t.number`, 't.reason', 't.recorded_at')} FROM agreement_text t WHERE t.state = 'draft' AND t.author_id <> $1::uuid`,
      ),
      'at',
    ),
  },
  rulesSetAside: {
    needs: ['monthStart'],
    sql: pick(
      `${of(
        'text',
        `${row('s.id::text', 's.thing_id', `k.jurisdiction || ', row ' || s.row_key`, `w.name || ': ' || s.reason`, 's.happened_at')} FROM rule_set_aside s JOIN rule_pack k ON k.id = s.pack_id JOIN person w ON w.id = s.actor_id
      JOIN agreement_text t ON t.id = s.thing_id AND t.state = 'approved' WHERE s.happened_at >= $1::timestamptz`,
      )} UNION ALL ${of(
        'callback',
        `${row('s.id::text', 'c.id', `k.jurisdiction || ', row ' || s.row_key || ', callback ' || c.number`, `w.name || ': ' || s.reason`, 's.happened_at')} FROM rule_set_aside s JOIN rule_pack k ON k.id = s.pack_id JOIN person w ON w.id = s.actor_id
      JOIN remedy y ON y.id = s.thing_id AND y.state <> 'refused' JOIN callback c ON c.id = y.callback_id WHERE s.happened_at >= $1::timestamptz`,
      )}`,
      'at DESC',
    ),
  },
  notAcknowledged: {
    needs: ['now', 'today'],
    sql: pick(
      of(
        'revision',
        `${row(`r.id::text || w.id::text`, 'r.id', 'w.name', `p.title || ', revision ' || r.number`, 'r.acknowledge_by')} FROM in_force_period f JOIN procedure_revision r ON r.id = f.revision_id AND r.asks JOIN procedure p ON p.id = r.procedure_id
      JOIN person w ON w.ended_on IS NULL OR w.ended_on > $2::date JOIN person_role g ON g.person_id = w.id AND g.role = 'inspector'
      WHERE (f.until_at IS NULL OR f.until_at > $1::timestamptz) AND NOT EXISTS (SELECT FROM acknowledgement a WHERE a.revision_id = r.id AND a.person_id = w.id)`,
      ),
      'at, title',
    ),
  },
  recordsUnsealed: {
    needs: ['now'],
    sql: pick(
      of(
        'record',
        `${row('s.id::text', 'j.id', WHERE_JOB, `coalesce((SELECT string_agg(w.name, ' and ' ORDER BY a.place) FROM assignment a JOIN person w ON w.id = a.person_id WHERE a.visit_id = v.id), '')`, 'v.ends_at')} FROM site_record s JOIN visit v ON v.id = s.visit_id ${JOB} WHERE s.state = 'open' AND v.ends_at < $1::timestamptz`,
      ),
      'at',
    ),
  },
  remediesToApprove: {
    needs: [],
    sql: pick(
      of(
        'callback',
        `${row('r.id::text', 'c.id', `'Callback ' || c.number || ', ' || p.address`, `replace(r.kind, '_', ' ') || CASE WHEN r.cents > 0 THEN ', ' || to_char(r.cents / 100.0, 'FM$999,999,990.00') ELSE '' END`, 'r.recorded_at')} FROM remedy r JOIN callback c ON c.id = r.callback_id JOIN job j ON j.id = c.job_id JOIN property p ON p.id = j.property_id WHERE r.state = 'proposed'`,
      ),
      'at',
    ),
  },
  clearancesNeeded: {
    needs: [],
    sql: pick(
      of(
        'callback',
        `${row('c.id::text', 'c.id', `'Callback ' || c.number || ', ' || p.address`, `'No offer or payment may leave before it'`, 'min(r.recorded_at)')} FROM remedy r JOIN callback c ON c.id = r.callback_id JOIN job j ON j.id = c.job_id JOIN property p ON p.id = j.property_id
      WHERE r.state IN ('proposed', 'approved') AND r.cents > 0 AND NOT EXISTS (SELECT FROM clearance l WHERE l.callback_id = c.id) GROUP BY c.id, p.id`,
      ),
      'at',
    ),
  },
  /** Of others: whoever let something pass knows of it. */
  overridesUsed: {
    needs: ['monthStart', 'me'],
    sql: pick(
      `${of(
        'job',
        `${row('g.id::text', 'j.id', WHERE_JOB, `w.name || ' let a visit start: ' || ${inWords('g.missing')} || ' (' || g.reason || ')'`, 'g.happened_at')} FROM gate_override g JOIN visit v ON v.id = g.visit_id ${JOB} JOIN person w ON w.id = g.actor_id WHERE g.happened_at >= $1::timestamptz AND g.actor_id <> $2::uuid`,
      )} UNION ALL ${of(
        'report',
        `${row('o.id::text', 'j.id', WHERE_JOB, `w.name || ' let a report leave: ' || ${inWords('o.missing')} || ' (' || o.reason || ')'`, 'o.happened_at')} FROM hand_over_override o JOIN job j ON j.id = o.job_id JOIN property p ON p.id = j.property_id JOIN person w ON w.id = o.actor_id WHERE o.happened_at >= $1::timestamptz AND o.actor_id <> $2::uuid`,
      )}`,
      'at DESC',
    ),
  },
} as const satisfies Record<string, Statement>;

export type HomeListKey = keyof typeof HOME_LISTS;

/** The first lines of one list; `all` of each line is how many there are. */
export const homeList = (reader: Reader, key: HomeListKey, ask: HomeAsk): Promise<HomeRow[]> => {
  const { sql, needs }: Statement = HOME_LISTS[key];
  return reader.rows<HomeRow>(
    sql,
    needs.map((name) => ask[name]),
  );
};
