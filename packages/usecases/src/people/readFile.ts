// What is on file about a person, the firm's pairing rules and kit, and what lapses soon.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { licensesOf, qualificationKinds, qualificationsOf } from '@backsight/store/people/credentials';
import {
  listKitChecks,
  listKitItems,
  listKitKinds,
  sizesOf,
  type KitCheckRow,
  type KitItemRow,
  type KitKindRow,
} from '@backsight/store/people/kit';
import { checkDueOn } from '@backsight/domain/people/kit';
import { barsOf, searchProperties, type BarKind } from '@backsight/store/people/pairing';
import { absencesOf, exceptionsOf, patternsOf, visitsOfPerson, type AbsenceRow } from '@backsight/store/people/times';
import { decides } from '@backsight/domain/people/absences';
import { sayHit } from '@backsight/domain/people/times';
import { findPerson } from '@backsight/store/people';
import { searchParties } from '@backsight/store/jobs/parties';
import type { Reader } from '@backsight/store/database';
import { localDay } from '../firm/steps/localDay.ts';
import { PAST_DAYS } from './steps/lapses.ts';
import type { Actor } from '../run.ts';

export { listPairing } from '@backsight/store/people/pairing';

/** Licenses, qualifications, hours, absences since a month ago, and where the person must not go. That, and reasons of absences, only for the person and those who decide. */
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
    sizes: await sizesOf(reader, personId),
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
    bars: (isDecider || isSelf ? bars : []).map(({ personId: _, ...bar }) => ({ ...bar, reason: isOffice ? bar.reason : null })),
  });
}

async function hitsOf(reader: Reader, { personId, startsAt, endsAt }: AbsenceRow, now: Date, zone: string): Promise<string[]> {
  return (await visitsOfPerson(reader, personId, startsAt, endsAt, now)).map((visit) => sayHit(visit, zone));
}

/** Properties on file whose address holds every word, or people on jobs whose name, e-mail address or phone holds the text. */
export async function findBarChoices(reader: Reader, kind: BarKind, text: string): Promise<{ id: string; name: string }[]> {
  if (kind === 'property') return searchProperties(reader, text.split(/\s+/).filter(Boolean).slice(0, 8));
  return (await searchParties(reader, text.trim())).map(({ id, name, email, phone }) => ({
    id,
    name: [name, email ?? phone].filter(Boolean).join(', '),
  }));
}

export type KitPiece = KitItemRow & { checks: (Omit<KitCheckRow, 'itemId'> & { dueOn: string | null })[] };

/** Kinds and pieces of kit; each piece in service with the checks that it needs. */
export async function readKit(reader: Reader): Promise<{ kinds: KitKindRow[]; items: KitPiece[] }> {
  const checks = await listKitChecks(reader);
  const items = (await listKitItems(reader)).map((item) => ({
    ...item,
    checks: checks
      .filter(({ itemId }) => itemId === item.id)
      .map(({ itemId: _, ...check }) => ({ ...check, dueOn: checkDueOn(check.doneOn, check.everyDays) })),
  }));
  return { kinds: await listKitKinds(reader), items };
}

export { lapsesWithin as readLapsing } from './steps/lapses.ts';
