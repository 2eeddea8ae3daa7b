// Two looks counted the slow way: every row of the tables, and what the rule says, one thing after the other.
import { DateTime } from 'luxon';
import type { Evidence } from '@backsight/domain/procedures/step';
import { orderOf } from '@backsight/domain/sitework/order';
import type { TwoLooksRow } from '@backsight/store/callbacks/background';
import type { Reader } from '@backsight/store/database';
import type { BlindPair } from '@backsight/store/sitework/rules';

type Rec = { id: string; visit_id: string; state: string; recorded_at: Date };
type Pack = { id: string; record_id: string };
type Asked = { id: string; package_id: string; step_key: string; revision_id: string; item_id: string | null; partner_check: boolean };
type Entry = { id: string; record_id: string; step_key: string; item_id: string | null; observed_by: string; outcome: string } & {
  value: { evidence: { option?: string } | null; closedBy?: string };
  device_id: string | null;
  device_seq: number;
  written_at: Date | null;
  clock_offset_ms: bigint | string | null;
  recorded_at: Date;
};
type Member = { visit_id: string; place: string; person_id: string };
type Worded = { revision_id: string; step_key: string; body: { evidence: Evidence } };

export async function everyRow(reader: Reader) {
  const all = <T>(table: string) => reader.rows<T>(`SELECT * FROM ${table}`);
  return {
    visits: await all<{ id: string; job_id: string; starts_at: Date }>('visit'),
    jobs: await all<{ id: string; office_id: string }>('job'),
    offices: await all<{ id: string; zone: string }>('office'),
    revisions: await all<{ id: string; procedure_id: string }>('procedure_revision'),
    procedures: await all<{ id: string; system: string }>('procedure'),
    records: await all<Rec>('site_record'),
    packages: await all<Pack>('site_package'),
    steps: await all<Asked>('package_step'),
    entries: await all<Entry>('step_entry'),
    members: await all<Member>('assignment'),
    worded: await all<Worded>('revision_step'),
  };
}
type Rows = Awaited<ReturnType<typeof everyRow>>;

const newestFirst = (a: Rec, b: Rec): number => b.recorded_at.getTime() - a.recorded_at.getTime() || (a.id < b.id ? 1 : -1);

/** The order in which the record itself shows its entries. */
function inOrder(entries: readonly Entry[]): Entry[] {
  const written = entries.map(({ id, device_id, device_seq, written_at, clock_offset_ms, recorded_at }) => ({
    ...{ id, deviceId: device_id, deviceSeq: device_seq, writtenAt: written_at, recordedAt: recorded_at },
    clockOffsetMs: clock_offset_ms === null ? null : Number(clock_offset_ms),
  }));
  const order = orderOf(written);
  return entries.toSorted((a, b) => (order.get(a.id)! < order.get(b.id)! ? -1 : 1));
}

const twiceIn = ({ packages, steps }: Rows, record: Rec): Asked[] =>
  steps.filter((step) => step.partner_check && packages.some(({ id, record_id }) => id === step.package_id && record_id === record.id));

/** The first answer of whoever had this place of the pair; null where they gave none, or the service wrote it for them. */
function firstOf({ entries, members }: Rows, record: Rec, step: Asked, place: string): Entry | null {
  const person = members.find((one) => one.visit_id === record.visit_id && one.place === place)?.person_id;
  const inRecord = inOrder(entries.filter((e) => e.record_id === record.id));
  const first = inRecord.find((e) => e.step_key === step.step_key && e.item_id === step.item_id && e.observed_by === person) ?? null;
  return first === null || first.outcome === 'ended_before' || first.value.closedBy !== undefined ? null : first;
}

export function plainCount(rows: Rows, jobId: string, window: number): TwoLooksRow[] {
  const visits = new Set(rows.visits.filter(({ job_id }) => job_id === jobId).map(({ id }) => id));
  const ofJob = rows.records.filter(({ visit_id }) => visits.has(visit_id));
  const mine = new Set(ofJob.flatMap((record) => twiceIn(rows, record).map(({ step_key }) => step_key)));
  const newest = rows.records
    .filter(({ state }) => state === 'sealed')
    .toSorted(newestFirst)
    .slice(0, window);
  const counted = new Map<string, TwoLooksRow>();
  for (const record of newest)
    for (const step of twiceIn(rows, record).filter(({ step_key }) => mine.has(step_key))) {
      const [first, second] = [firstOf(rows, record, step, 'first'), firstOf(rows, record, step, 'second')];
      if (!first || !second) continue;
      const asked = rows.worded.find((one) => one.revision_id === step.revision_id && one.step_key === step.step_key)!.body.evidence;
      const look = {
        ...{ stepKey: step.step_key, asked, firstOutcome: first.outcome, first: first.value.evidence },
        ...{ secondOutcome: second.outcome, second: second.value.evidence },
      };
      const key = JSON.stringify(look);
      counted.set(key, { ...look, count: (counted.get(key)?.count ?? 0) + 1 });
    }
  return [...counted.values()];
}

/** Of sealed records, the places asked of both by a choice, where the first word of each was an answer. */
export function plainPairs(rows: Rows): BlindPair[] {
  const counted = new Map<string, BlindPair>();
  const the = <T extends { id: string }>(list: readonly T[], id: string): T => list.find((one) => one.id === id)!;
  for (const record of rows.records.filter(({ state }) => state === 'sealed'))
    for (const step of twiceIn(rows, record)) {
      const { evidence } = rows.worded.find((one) => one.revision_id === step.revision_id && one.step_key === step.step_key)!.body;
      const [first, second] = ['first', 'second'].map((place) => firstOf(rows, record, step, place));
      if (evidence.kind !== 'choice' || first?.outcome !== 'done' || second?.outcome !== 'done') continue;
      const visit = the(rows.visits, record.visit_id);
      const { zone } = the(rows.offices, the(rows.jobs, visit.job_id).office_id);
      const { system } = the(rows.procedures, the(rows.revisions, step.revision_id).procedure_id);
      const answers = { first: first.value.evidence!.option!, second: second.value.evidence!.option! };
      const quarter = DateTime.fromJSDate(visit.starts_at, { zone }).toFormat("yyyy 'Q'q");
      const pair = { system, quarter, stepKey: step.step_key, nothing: evidence.options[0]!.key, ...answers };
      const key = JSON.stringify(pair);
      counted.set(key, { ...pair, count: (counted.get(key)?.count ?? 0) + 1 });
    }
  return [...counted.values()];
}
