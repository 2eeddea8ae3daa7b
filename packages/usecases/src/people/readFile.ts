// What is on file about a person, the firm's pairing rules and kit, and what lapses soon.
import { DateTime } from 'luxon';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { licensesOf, qualificationKinds, qualificationsOf } from '@backsight/store/people/credentials';
import { listKitItems, listKitKinds, listLapsing, type KitItemRow, type KitKindRow, type LapsingRow } from '@backsight/store/people/kit';
import { barsOf, searchProperties } from '@backsight/store/people/pairing';
import { absencesOf, exceptionsOf, patternsOf, visitsOfPerson, type AbsenceRow } from '@backsight/store/people/times';
import { decides } from '@backsight/domain/people/absences';
import { hitWarnings } from '@backsight/domain/people/times';
import { findPerson } from '@backsight/store/people';
import type { Reader } from '@backsight/store/database';
import { localDay } from '../firm/steps/localDay.ts';
import type { Actor } from '../run.ts';

export { listPairing } from '@backsight/store/people/pairing';

const PAST_DAYS = 30;

/** Licenses, qualifications, hours, absences since a month ago, and barred properties. Reasons of absences only for the person and those who decide. */
export async function readPersonFile(reader: Reader, personId: string, by: { actor: Actor; now: Date }) {
  if (!(await findPerson(reader, personId))) return refuse('not-found', { thing: 'person' });
  const isOffice = by.actor.kind === 'person' && by.actor.roles.some((role) => role === 'owner' || role === 'office_manager');
  const isSelf = by.actor.kind === 'person' && by.actor.id === personId;
  const isDecider = by.actor.kind === 'person' && decides(by.actor.roles);
  const { zone, today } = await localDay(reader, by.now);
  const absences = await absencesOf(reader, personId, new Date(by.now.getTime() - PAST_DAYS * 86_400_000));
  const bars = await barsOf(reader, personId);
  return accept({
    licenses: await licensesOf(reader, personId),
    qualifications: await qualificationsOf(reader, personId),
    qualificationKinds: await qualificationKinds(reader),
    hours: await patternsOf(reader, personId),
    exceptions: (await exceptionsOf(reader, personId, today)).map(({ id, day, startMinute, endMinute, note }) => ({
      id,
      day,
      startMinute,
      endMinute,
      note: isDecider || isSelf ? note : '',
    })),
    absences: await Promise.all(
      absences
        .filter(({ state }) => state === 'approved' || isDecider || isSelf)
        .map(async (absence) => ({
          id: absence.id,
          startsAt: absence.startsAt.toISOString(),
          endsAt: absence.endsAt.toISOString(),
          reason: isDecider || isSelf ? absence.reason : null,
          state: absence.state,
          decision: isDecider || isSelf ? absence.decision : null,
          hits: isDecider && absence.state === 'asked' ? await hitsOf(reader, absence, by.now, zone) : [],
        })),
    ),
    bars: bars.map(({ id, propertyId, address, reason }) => ({ id, propertyId, address, reason: isOffice ? reason : null })),
  });
}

async function hitsOf(reader: Reader, { personId, startsAt, endsAt }: AbsenceRow, now: Date, zone: string): Promise<string[]> {
  return hitWarnings(await visitsOfPerson(reader, personId, startsAt, endsAt, now), zone).map(({ text }) => text);
}

/** Properties on file whose address holds every word. */
export const findProperties = (reader: Reader, text: string) => searchProperties(reader, text.split(/\s+/).filter(Boolean).slice(0, 8));

export const readKit = async (reader: Reader): Promise<{ kinds: KitKindRow[]; items: KitItemRow[] }> => ({
  kinds: await listKitKinds(reader),
  items: await listKitItems(reader),
});

/** What lapses within `days` days from today, and what lapsed in the last 30 without being renewed. */
export async function readLapsing(reader: Reader, now: Date, days: number): Promise<(LapsingRow & { lapsed: boolean })[]> {
  const { today } = await localDay(reader, now);
  const at = DateTime.fromISO(today, { zone: 'utc' });
  const rows = await listLapsing(reader, at.minus({ days: PAST_DAYS }).toISODate()!, at.plus({ days }).toISODate()!);
  return rows.map((row) => ({ ...row, lapsed: row.on < today }));
}
