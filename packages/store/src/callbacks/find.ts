// Callbacks narrowed by what is known of them, counted in groups, and as rows of a table.
import { incurred, type CallbackMoney } from '@backsight/domain/callbacks/money';
import type { Find, Group } from '@backsight/domain/callbacks/find';
import type { Kind, Speaker, State } from '@backsight/domain/callbacks/words';
import type { Reader } from '../database.ts';
import { LINEAGE } from '../lineage.ts';
import { NEXT_CLOCK } from './clocks.ts';
import { INSPECTED_ON } from './job.ts';
import { MONEY_SUMS } from './money.ts';

export type Which = 'open' | 'closed' | 'all';
/** `now` decides what is overdue. */
export type Wanted = { which: Which; find: Find; seeOwnerOnly: boolean; now: Date };

const NEWEST = `SELECT n.id, n.cause, n.step_key, n.revision_id, n.text_id, n.actor_id, n.happened_at FROM conclusion n WHERE n.callback_id = c.id ORDER BY n.happened_at DESC, n.id DESC LIMIT 1`;
const WENT = `SELECT s.person_id FROM visit v JOIN assignment s ON s.visit_id = v.id WHERE v.job_id = c.job_id AND v.state IN ('on_site', 'done', 'before')`;
/** Ids of all who were on the job, in order. */
const PAIR = `(SELECT string_agg(DISTINCT p.person_id::text, ',') FROM (${WENT}) p)`;
const RECEIVED = `to_char(c.received_at AT TIME ZONE o.zone, 'YYYY-MM')`;
const INSPECTED = `left(${INSPECTED_ON}, 7)`;
/** The page of a search of some words, as a user typed them: no operator can make it fail. */
const SAID = (f: string): string =>
  `(to_tsvector('english', coalesce(t.body, '')) @@ websearch_to_tsquery('english', ${f} ->> 'q') OR c.number::text = ${f} ->> 'q' OR j.number::text = ${f} ->> 'q'
    OR strpos(lower(concat_ws(' ', c.place, a.address, a.town, w.name)), lower(${f} ->> 'q')) > 0)`;

/** Every step of the line of descent that the step asked for belongs to. */
const LINE_OF = (f: string): string => `(${LINEAGE} SELECT key FROM line WHERE root = (SELECT root FROM line WHERE key = ${f} ->> 'step'))`;

/** Holds for a callback `c` (job j, property a, office o, party w, words t) that fits all parts of the jsonb parameter `f`. */
const fits = (f: string): string => {
  const same = (part: string, is: string): string => `(${f} ->> '${part}' IS NULL OR ${is} = ${f} ->> '${part}')`;
  return [
    `((${f} ->> 'seeOwnerOnly')::boolean OR NOT c.owner_only)`,
    ...[same('state', 'c.state'), same('kind', 'c.kind'), same('speaker', 'c.speaker'), same('system', 'c.system')],
    `(${f} ->> 'safety' IS NULL OR c.safety)`,
    `(${f} ->> 'overdue' IS NULL OR (c.state <> 'closed' AND (c.deadline_on < ((${f} ->> 'now')::timestamptz AT TIME ZONE o.zone)::date
      OR EXISTS (SELECT FROM (${NEXT_CLOCK}) n WHERE n.due_at < (${f} ->> 'now')::timestamptz))))`,
    `((${f} ->> 'cause' IS NULL AND ${f} ->> 'step' IS NULL AND ${f} ->> 'revision' IS NULL) OR EXISTS (SELECT FROM (${NEWEST}) x
      WHERE ${same('cause', 'x.cause')} AND (${f} ->> 'step' IS NULL OR x.step_key IN ${LINE_OF(f)}) AND ${same('revision', 'x.revision_id::text')}))`,
    `(${f} ->> 'person' IS NULL OR (${f} ->> 'person')::uuid IN (${WENT}))`,
    same('pair', PAIR),
    ...[same('received', RECEIVED), same('inspected', INSPECTED)],
    `(${f} ->> 'q' IS NULL OR ${SAID(f)})`,
  ].join(' AND ');
};

/** Said in the statement itself, because most of all callbacks are closed and there is an index of those that are not. */
const WHICH: Record<Which, string> = { open: `c.state <> 'closed'`, closed: `c.state = 'closed'`, all: 'true' };

/** What is asked of the callbacks that fit, their ids where nothing is said. */
const found = (
  which: Which,
  what = 'c.id',
): string => `SELECT ${what} FROM callback c JOIN job j ON j.id = c.job_id JOIN office o ON o.id = j.office_id JOIN property a ON a.id = j.property_id
  LEFT JOIN party w ON w.id = c.party_id LEFT JOIN kept_text t ON t.id = c.text_id WHERE ${WHICH[which]} AND ${fits('$1::jsonb')}`;
const wanted = ({ find, now, ...rest }: Wanted): string => JSON.stringify({ ...find, ...rest, now: now.toISOString() });

/** Numbers below `before` of the callbacks that fit, newest first. */
export const findNumbers = async (reader: Reader, want: Wanted, before: number | null, limit: number): Promise<number[]> =>
  (
    await reader.rows<{ number: number }>(
      `SELECT number FROM callback WHERE id IN (${found(want.which)}) AND ($2::int IS NULL OR number < $2::int) ORDER BY number DESC LIMIT $3::int`,
      [wanted(want), before, limit],
    )
  ).map(({ number }) => number);

/** Steps are grouped by their line of descent, under the key, the title and the procedure (`procedureId`) of its first step. */
export type GroupRow = { key: string; label: string; procedureId: string | null; callbacks: number; open: number } & CallbackMoney;

/** Key of the group of a callback, '' where there is none; label and procedure of a group `g`, which its key tells. */
const GROUP: Record<Group, { key: string; label: string; procedure?: string }> = {
  system: { key: 'c.system', label: "''" },
  received: { key: RECEIVED, label: "''" },
  inspected: { key: INSPECTED, label: "''" },
  pair: {
    key: PAIR,
    label: `(SELECT string_agg(p.name, ', ' ORDER BY p.name) FROM person p WHERE p.id::text = ANY (string_to_array(g.key, ',')))`,
  },
  step: {
    key: `(SELECT l.root FROM (${NEWEST}) x JOIN line l ON l.key = x.step_key)`,
    label: `(SELECT p.title || ': ' || coalesce((SELECT s.body ->> 'title' FROM revision_step s JOIN procedure_revision r ON r.id = s.revision_id AND r.state = 'approved' WHERE s.step_key = k.key ORDER BY r.number DESC LIMIT 1), k.key)
      FROM step_key k JOIN procedure p ON p.id = k.procedure_id WHERE k.key = g.key)`,
    procedure: `(SELECT k.procedure_id::text FROM step_key k WHERE k.key = g.key)`,
  },
  cause: { key: `(SELECT x.cause FROM (${NEWEST}) x)`, label: "''" },
};

/** How many there are in each group, with the sums of the ledger. Pairs by name; months newest first; others by how many. */
export async function countGroups(reader: Reader, want: Wanted, by: Group): Promise<GroupRow[]> {
  const order = by === 'pair' ? 'label, key' : by === 'received' || by === 'inspected' ? 'key DESC' : 'callbacks DESC, label, key';
  const rows = await reader.rows<Omit<GroupRow, 'incurredCents'>>(
    `${LINEAGE}, one AS MATERIALIZED (${found(want.which, `c.id, c.state, coalesce(${GROUP[by].key}, '') AS key`)}),
       money AS (SELECT l.callback_id AS id, ${MONEY_SUMS} FROM ledger_line l WHERE l.callback_id IN (SELECT id FROM one) GROUP BY 1),
       g AS (SELECT key, count(*)::int AS callbacks, (count(*) FILTER (WHERE state <> 'closed'))::int AS open, coalesce(sum("paidCents"), 0)::int AS "paidCents",
       coalesce(sum("reservedCents"), 0)::int AS "reservedCents", coalesce(sum("recoveredCents"), 0)::int AS "recoveredCents"
     FROM one LEFT JOIN money USING (id) GROUP BY key)
     SELECT g.*, coalesce(${GROUP[by].label}, '') AS label, ${GROUP[by].procedure ?? 'NULL'} AS "procedureId" FROM g ORDER BY ${order}`,
    [wanted(want)],
  );
  return rows.map((row) => ({ ...row, incurredCents: incurred(row) }));
}

export type TableRow = {
  number: number;
  kind: Kind;
  state: State;
  speaker: Speaker;
  party: string | null;
  system: string;
  place: string;
  safety: boolean;
  received: string;
  inspectedOn: string | null;
  jobNumber: number;
  address: string;
  town: string;
  pair: string | null;
  words: string | null;
  cause: string | null;
  stepKey: string | null;
  step: string | null;
  revision: number | null;
  reasons: string | null;
  concludedBy: string | null;
} & Omit<CallbackMoney, 'incurredCents'>;

/** Everything of each that fits, in one statement, newest first. `received` is the day where the office is. */
export const tableRows = (reader: Reader, want: Wanted): Promise<TableRow[]> =>
  reader.rows<TableRow>(
    `WITH found AS MATERIALIZED (${found(want.which)}),
       money AS (SELECT l.callback_id AS id, ${MONEY_SUMS} FROM ledger_line l WHERE l.callback_id IN (SELECT id FROM found) GROUP BY 1)
     SELECT c.number, c.kind, c.state, c.speaker, w.name AS party, c.system, c.place, c.safety, (c.received_at AT TIME ZONE o.zone)::date::text AS received, ${INSPECTED_ON} AS "inspectedOn",
       j.number AS "jobNumber", a.address, a.town, (SELECT string_agg(p.name, ', ' ORDER BY p.name) FROM person p WHERE p.id IN (${WENT})) AS pair, t.body AS words,
       x.cause, x.step_key AS "stepKey", s.body ->> 'title' AS step, r.number AS revision, y.body AS reasons, b.name AS "concludedBy",
       coalesce(m."paidCents", 0) AS "paidCents", coalesce(m."reservedCents", 0) AS "reservedCents", coalesce(m."recoveredCents", 0) AS "recoveredCents"
     FROM found JOIN callback c ON c.id = found.id JOIN job j ON j.id = c.job_id JOIN office o ON o.id = j.office_id JOIN property a ON a.id = j.property_id
       LEFT JOIN party w ON w.id = c.party_id LEFT JOIN kept_text t ON t.id = c.text_id LEFT JOIN LATERAL (${NEWEST}) x ON true LEFT JOIN procedure_revision r ON r.id = x.revision_id
       LEFT JOIN revision_step s ON s.revision_id = x.revision_id AND s.step_key = x.step_key LEFT JOIN kept_text y ON y.id = x.text_id LEFT JOIN person b ON b.id = x.actor_id
       LEFT JOIN money m ON m.id = c.id ORDER BY c.number DESC`,
    [wanted(want)],
  );
