// What lapses, with the stage at which it is: licenses and the like from the records, education hours worked out by the rule pack.
import { educationStanding, sayHours, stageOf, type Stage } from '@backsight/domain/people/education';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { readEducationRule } from '@backsight/domain/people/stored';
import type { Reader } from '@backsight/store/database';
import { findLearners } from '@backsight/store/people/education';
import { listLapsing, type LapsingRow } from '@backsight/store/people/lapsing';
import { localDay } from '../../firm/steps/localDay.ts';

export type Lapse = LapsingRow & { stage: Stage | null; lapsed: boolean };

/** Kit is told of a month before: half of all calibrations end within any half year. */
const KIT_DAYS = 30;
const EARLIEST_DAYS = 180;
export const PAST_DAYS = 30;

async function education(reader: Reader, today: string): Promise<LapsingRow[]> {
  return (await findLearners(reader, today, null)).flatMap(({ id, name, pack, taken }): LapsingRow[] => {
    const rule = readEducationRule(pack);
    const standing = rule && educationStanding(rule, taken, today);
    if (!standing || standing.missingMinutes === 0) return [];
    const what = `${sayHours(standing.missingMinutes)} of ${sayHours(standing.needMinutes)} education missing`;
    return [{ kind: 'education', id, personId: id, who: name, what, on: standing.untilDay }];
  });
}

/** What lapses within `days` days from today, and what lapsed in the last 30 without being renewed; soonest first. */
export const lapsesWithin = async (reader: Reader, now: Date, days: number): Promise<Lapse[]> =>
  lapsesFrom(reader, (await localDay(reader, now)).today, days);

async function lapsesFrom(reader: Reader, today: string, days: number): Promise<Lapse[]> {
  const to = shiftDay(today, days);
  const rows = [
    ...(await listLapsing(reader, { from: shiftDay(today, -PAST_DAYS), to, today })),
    ...(await education(reader, today)).filter(({ on }) => on <= to),
  ];
  return rows
    .map((row) => ({ ...row, stage: stageOf(today, row.on), lapsed: row.on < today }))
    .toSorted((a, b) => a.on.localeCompare(b.on));
}

/** What the homes list and the mails tell: half a year ahead, kit a month. */
export const pressingLapses = async (reader: Reader, today: string): Promise<Lapse[]> =>
  (await lapsesFrom(reader, today, EARLIEST_DAYS)).filter(
    ({ kind, stage }) => !kind.startsWith('kit') || (stage !== null && stage <= KIT_DAYS),
  );
