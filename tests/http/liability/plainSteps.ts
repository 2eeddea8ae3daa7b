// What records hold at a step, counted the slow way: every row of the tables, and what the rule says, one place after the other.
import { DateTime } from 'luxon';
import type { Reader } from '@backsight/store/database';
import type { StepRecord } from '@backsight/store/callbacks/effect';
import type { StepFigure } from '@backsight/store/liability/figures';

type Entry = { id: string; record_id: string; step_key: string; item_id: string | null; observed_by: string; outcome: string } & {
  supersedes_id: string | null;
  match: string;
  value: { evidence: unknown; closedBy?: string };
};
type Asked = { package_id: string; step_key: string; item_id: string | null; revision_id: string };

/** One place of a record, with what it shows. */
export type PlainPlace = Asked & { record: { id: string; state: string; opened_at: Date }; jobId: string; month: string } & Pick<
    StepRecord,
    'noEntry' | 'endedBefore' | 'couldNot' | 'differs' | 'partnerDiffers'
  >;

/** An entry that the service filled in is nobody's look: it says something only where nobody looked. */
function shown(entries: readonly Entry[]) {
  const looks = entries.filter(({ outcome, value }) => outcome !== 'ended_before' && value.closedBy === undefined);
  const counting = looks.length > 0 ? looks : entries;
  const several = (of: (entry: Entry) => string) => new Set(looks.map(of)).size > 1;
  return {
    noEntry: entries.length === 0,
    endedBefore: counting.some(({ outcome }) => outcome === 'ended_before'),
    couldNot: counting.some(({ outcome }) => outcome === 'could_not' || outcome === 'from_opening'),
    differs: entries.some(({ match }) => match === 'differs'),
    partnerDiffers: several((e) => e.observed_by) && several((e) => `${e.outcome} ${JSON.stringify(e.value.evidence)}`),
  };
}

/** Every place of every record, by the revision of the newest package that asks for it. */
export async function plainPlaces(reader: Reader): Promise<PlainPlace[]> {
  const all = <T>(table: string) => reader.rows<T>(`SELECT * FROM ${table}`);
  const [{ zone }] = (await all<{ zone: string }>('firm')) as [{ zone: string }];
  const visits = new Map((await all<{ id: string; job_id: string; starts_at: Date }>('visit')).map((one) => [one.id, one]));
  const packages = await all<{ id: string; record_id: string; number: number }>('site_package');
  const steps = await all<Asked>('package_step');
  const entries = await all<Entry>('step_entry');
  const replaced = new Set(entries.map(({ supersedes_id }) => supersedes_id));
  const standing = entries.filter(({ id }) => !replaced.has(id));
  const places: PlainPlace[] = [];
  for (const record of await all<PlainPlace['record'] & { visit_id: string }>('site_record')) {
    const visit = visits.get(record.visit_id)!;
    const inOrder = packages.filter(({ record_id }) => record_id === record.id).toSorted((a, b) => a.number - b.number);
    const asked = inOrder.flatMap(({ id }) => steps.filter(({ package_id }) => package_id === id));
    const newest = new Map(asked.map((step) => [`${step.step_key}@${step.item_id}`, step]));
    for (const step of newest.values()) {
      const here = standing.filter((e) => e.record_id === record.id && e.step_key === step.step_key && e.item_id === step.item_id);
      const month = DateTime.fromJSDate(visit.starts_at, { zone }).toFormat('yyyy-MM');
      places.push({ ...step, record, jobId: visit.job_id, month, ...shown(here) });
    }
  }
  return places;
}

function grouped<T>(all: readonly T[], by: (one: T) => string): T[][] {
  const groups = new Map<string, T[]>();
  for (const one of all) groups.set(by(one), [...(groups.get(by(one)) ?? []), one]);
  return [...groups.values()];
}

/** Of steps that descend from no other. */
export function plainFigures(places: readonly PlainPlace[]): StepFigure[] {
  return grouped(places, (place) => `${place.step_key} ${place.revision_id} ${place.month}`).map((all) => {
    const judged = all.filter(({ record }) => record.state === 'sealed');
    const count = (of: (place: PlainPlace) => boolean) => judged.filter(of).length;
    return {
      ...{ stepKey: all[0]!.step_key, revisionId: all[0]!.revision_id, month: all[0]!.month },
      ...{ times: all.length, jobs: new Set(all.map(({ jobId }) => jobId)).size, judged: judged.length },
      met: count((place) => !place.noEntry && !place.endedBefore && !place.differs),
      skipped: count((place) => place.noEntry || place.endedBefore),
      couldNot: count(({ couldNot }) => couldNot),
      differed: count(({ partnerDiffers }) => partnerDiffers),
    };
  });
}

/** Sealed records that asked for the step: what any of their places shows. */
export function plainRecords(places: readonly PlainPlace[], stepKey: string) {
  const sealed = places.filter((place) => place.step_key === stepKey && place.record.state === 'sealed');
  return grouped(sealed, ({ record }) => record.id).map((all) => ({
    openedAt: all[0]!.record.opened_at,
    noEntry: all.some((place) => place.noEntry),
    endedBefore: all.some((place) => place.endedBefore),
    couldNot: all.some((place) => place.couldNot),
    differs: all.some((place) => place.differs),
    partnerDiffers: all.some((place) => place.partnerDiffers),
  }));
}
