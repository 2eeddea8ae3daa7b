// Lists of the homes about callbacks: dangers that nobody has, legal papers, injuries to report, clocks, and waiting that takes long.
import { KINDS, STATES } from '@backsight/domain/callbacks/words';
import { RUNS } from '../runningClock.ts';
import { of, pick, row, type Statement } from './sql.ts';

const FROM = `callback c JOIN job j ON j.id = c.job_id JOIN property p ON p.id = j.property_id`;
const TITLE = `'Callback ' || c.number || ', ' || p.address`;
/** What a stored word is called everywhere. */
const called = (column: string, words: Record<string, string>): string =>
  `CASE ${column} ${Object.entries(words)
    .map(([stored, said]) => `WHEN '${stored}' THEN '${said}'`)
    .join(' ')} END`;
const KIND = called('c.kind', KINDS);
const has = (me: string, ...roles: string[]): string =>
  `EXISTS (SELECT FROM person_role g WHERE g.person_id = ${me}::uuid AND g.role IN (${roles.map((role) => `'${role}'`).join(', ')}))`;
const sees = (me: string): string => `(NOT c.owner_only OR ${has(me, 'owner')})`;
const JUDGES = ['owner', 'lead_inspector'];
const DESK = [...JUDGES, 'office_manager'];

/** A paper counts as answered until its deadline is set anew. */
const ANSWERED = `EXISTS (SELECT FROM callback_event e WHERE e.callback_id = c.id AND e.kind = 'paper_answered'
  AND NOT EXISTS (SELECT FROM callback_event n WHERE n.callback_id = c.id AND n.kind = 'paper_set' AND n.seq > e.seq))`;
const PAPER = `${FROM} WHERE c.deadline_on IS NOT NULL AND c.state <> 'closed' AND NOT ${ANSWERED}`;
const paperRow = (words: string): string =>
  row('c.id::text', 'c.id', TITLE, `${KIND} || ', ${words}'`, 'NULL::timestamptz', 'c.deadline_on::text');

const SAME_DAY = `(VALUES (1, 'insurer', 'tell the insurer'), (2, 'attorney', 'tell the attorney'), (3, 'hold', 'set the evidence hold'), (4, 'silence', 'no further words to the other side')) AS i (n, item, words)`;

/** The weightier first: danger, then the insurer, who may refuse cover, then whoever has heard nothing yet. */
const WEIGHT = `(CASE WHEN c.safety THEN 0 ELSE 10 END) + CASE k.clock WHEN 'insurer' THEN 0 WHEN 'acknowledge' THEN 1 WHEN 'triage' THEN 2 WHEN 'answer' THEN 3 WHEN 'visit' THEN 4 ELSE 5 END`;
const UNDONE = `CASE k.clock WHEN 'insurer' THEN 'the insurer was not told yet' WHEN 'acknowledge' THEN 'not acknowledged yet' WHEN 'triage' THEN 'not sorted yet' WHEN 'answer' THEN 'not answered yet'
  WHEN 'visit' THEN 'not visited yet' ELSE 'not decided in writing yet' END`;
const ALL_UNDONE = `string_agg(${UNDONE}, '; ' ORDER BY ${WEIGHT}, k.due_at)`;
/** A line for each callback, with everything of it that is undone. The office does not decide, and notice to the insurer is for owner and lead inspector. */
const clocks = (me: string, when: string): string =>
  pick(
    of(
      'callback',
      `${row('c.id::text', 'c.id', TITLE, `upper(left(${ALL_UNDONE}, 1)) || substr(${ALL_UNDONE}, 2) || CASE WHEN c.safety THEN ', danger' ELSE '' END`, 'min(k.due_at)')}, min(${WEIGHT}) AS weight
      FROM ${FROM} JOIN callback_clock k ON k.callback_id = c.id
      WHERE c.state <> 'closed' AND ${sees(me)} AND (k.clock IN ('acknowledge', 'triage', 'answer', 'visit') OR ${has(me, ...JUDGES)}) AND ${RUNS} AND ${when} GROUP BY c.id, p.id`,
    ),
    'weight, at',
  );

export const CALLBACK_LISTS = {
  dangerUnanswered: {
    needs: ['me'],
    sql: pick(
      of(
        'danger',
        `${row('h.id::text', 'c.id', TITLE, `'Nobody has it yet. Alerted: ' || coalesce((SELECT string_agg(w.name, ', ' ORDER BY a.n) FROM danger_alert a JOIN person w ON w.id = a.person_id WHERE a.chain_id = h.id), 'nobody')`, 'h.started_at')}
      FROM danger_chain h JOIN ${FROM.replace('callback c', 'callback c ON c.id = h.callback_id')} WHERE h.answered_at IS NULL AND h.ended_at IS NULL AND ${sees('$1')}
        AND (${has('$1', ...DESK)} OR EXISTS (SELECT FROM danger_alert a WHERE a.chain_id = h.id AND a.person_id = $1::uuid))`,
      ),
      'at',
    ),
  },
  legalOverdue: {
    needs: ['today'],
    sql: pick(of('callback', `${paperRow('the deadline was missed')} FROM ${PAPER} AND c.deadline_on < $1::date`), 'day'),
  },
  legalPapers: {
    needs: ['today'],
    sql: pick(of('callback', `${paperRow('answer due')} FROM ${PAPER} AND c.deadline_on >= $1::date`), 'day'),
  },
  injuriesToReport: {
    needs: [],
    sql: pick(
      of(
        'callback',
        `${row('e.id::text', 'c.id', TITLE, `'An injury of somebody of ours is not reported to the federal office yet'`, `(e.details ->> 'dueAt')::timestamptz`)} FROM ${FROM} JOIN callback_event e ON e.callback_id = c.id AND e.kind = 'work_injury'
      WHERE e.details ->> 'dueAt' IS NOT NULL AND NOT EXISTS (SELECT FROM callback_event n WHERE n.callback_id = c.id AND n.kind = 'work_injury_reported' AND n.details ->> 'injuryId' = e.details ->> 'injuryId')`,
      ),
      'at',
    ),
  },
  sameDayMissing: {
    needs: [],
    sql: pick(
      of(
        'callback',
        `${row('c.id::text', 'c.id', TITLE, `'Still to do: ' || missing.words`, 'c.received_at')} FROM ${FROM} CROSS JOIN LATERAL (SELECT string_agg(i.words, ', ' ORDER BY i.n) AS words FROM ${SAME_DAY}
        WHERE NOT EXISTS (SELECT FROM callback_event e WHERE e.callback_id = c.id AND e.kind IN ('insurer_told', 'same_day_done') AND e.details ->> 'item' = i.item)) missing
      WHERE c.kind IN ('board_complaint', 'demand_or_suit', 'records_request') AND c.state <> 'closed' AND missing.words IS NOT NULL`,
      ),
      'at',
    ),
  },
  callbacksOverdue: { needs: ['now', 'me'], sql: clocks('$2', 'k.due_at < $1::timestamptz') },
  callbacksDueToday: {
    needs: ['now', 'me', 'today', 'zone'],
    sql: clocks('$2', 'k.due_at >= $1::timestamptz AND (k.due_at AT TIME ZONE $4)::date = $3::date'),
  },
  waitingLong: {
    needs: ['pausedSince', 'me'],
    sql: pick(
      of(
        'callback',
        `${row('s.id::text', 'c.id', TITLE, `'Waiting for the client: ask again, or let the clocks go on'`, 's.from_at')} FROM ${FROM} JOIN callback_pause s ON s.callback_id = c.id AND s.until_at IS NULL AND s.from_at < $1::timestamptz WHERE ${sees('$2')}`,
      ),
      'at',
    ),
  },
  /** Those of which nothing is due yet: the others stand above. */
  callbacksToLookInto: {
    needs: ['today', 'zone'],
    sql: pick(
      of(
        'callback',
        `${row('c.id::text', 'c.id', TITLE, `${KIND} || ', ' || ${called('c.state', STATES)} || CASE WHEN c.safety THEN ', danger' ELSE '' END`, `(SELECT min(k.due_at) FROM callback_clock k WHERE k.callback_id = c.id AND k.clock IN ('triage', 'decision') AND ${RUNS})`)}
      FROM ${FROM} WHERE c.state IN ('received', 'acknowledged', 'looking_into') AND NOT c.owner_only
        AND NOT EXISTS (SELECT FROM callback_clock k WHERE k.callback_id = c.id AND ${RUNS} AND (k.due_at AT TIME ZONE $2)::date <= $1::date)`,
      ),
      `(detail LIKE '%, danger') DESC, at`,
    ),
  },
} as const satisfies Record<string, Statement>;
