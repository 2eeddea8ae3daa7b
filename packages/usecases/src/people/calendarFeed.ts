// A person's calendar under a private address: opened anew, closed, and read by whoever holds the secret.
import { createHash } from 'node:crypto';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { calendarText, type CalendarEvent } from '@backsight/documents/calendar';
import type { Reader } from '@backsight/store/database';
import {
  feedAbsences,
  feedVisits,
  findFeed,
  findFeedOwner,
  revokeFeed,
  saveFeed,
  type FeedAbsence,
  type FeedVisit,
} from '@backsight/store/people/calendar';
import { findFirm } from '@backsight/store/firm';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';
import { newToken, tokenDigest } from './steps/password.ts';

const DAY = 86_400_000;
const BACK_DAYS = 60;
const AHEAD_DAYS = 400;

/** Opens one's own address; the one before stops working. The secret is in this reply alone. */
export const openFeed: Act<{ publicUrl: string }, { address: string }> = { operation: 'people.open-calendar-feed', run: open };

async function open(work: Work, { publicUrl }: { publicUrl: string }): Promise<Outcome<{ address: string }>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  const personId = work.actor.id;
  const replaced = await revokeFeed(work.tx, personId, work.now);
  const { token, tokenHash } = newToken();
  const id = work.newId();
  await saveFeed(work.tx, { id, personId, tokenHash, createdAt: work.now });
  await work.did('person', personId, { calendarFeedId: id, replaced });
  return accept({ address: `${publicUrl.replace(/\/$/, '')}/calendar/${token}.ics` });
}

/** Closes one's own address. */
export const closeFeed: Act<Record<string, never>, { closed: boolean }> = {
  operation: 'people.close-calendar-feed',
  run: async (work) => {
    if (work.actor.kind !== 'person') return refuse('not-allowed');
    const closed = await revokeFeed(work.tx, work.actor.id, work.now);
    await work.did('person', work.actor.id, { calendarFeedClosed: closed });
    return accept({ closed });
  },
};

/** Since when one's own address is open; null when none is. */
export const readFeedState = async (reader: Reader, personId: string): Promise<{ since: string | null }> => ({
  since: (await findFeed(reader, personId))?.createdAt.toISOString() ?? null,
});

/** The calendar behind a secret as iCalendar text with its tag; null when nothing is open under it. */
export async function readFeed(reader: Reader, token: string, now: Date): Promise<{ text: string; etag: string } | null> {
  const { today } = await localDay(reader, now);
  const owner = await findFeedOwner(reader, tokenDigest(token), today);
  if (!owner) return null;
  const noon = Date.parse(`${today}T12:00:00Z`);
  const [from, until] = [new Date(noon - BACK_DAYS * DAY), new Date(noon + AHEAD_DAYS * DAY)];
  const events = [
    ...(await feedVisits(reader, owner.id, from, until)).map(visitEvent),
    ...(await feedAbsences(reader, owner.id, from, until)).map(absenceEvent),
  ];
  const firm = (await findFirm(reader))?.name ?? '';
  const text = calendarText(`${owner.name}, ${firm}`, events);
  return { text, etag: `"${createHash('sha256').update(text).digest('base64url').slice(0, 27)}"` };
}

/** Where, when and with whom; nothing about clients, access or money leaves this way. */
function visitEvent(visit: FeedVisit): CalendarEvent {
  const others = visit.others.length > 0 ? ` with ${visit.others.join(' and ')}` : '';
  return {
    uid: `visit-${visit.id}@backsight`,
    startsAt: visit.startsAt,
    endsAt: visit.endsAt,
    summary: `${visit.kindName}${others} (${visit.place})`,
    location: visit.address,
    sequence: visit.version,
    stampedAt: visit.recordedAt,
  };
}

const absenceEvent = ({ id, startsAt, endsAt, state, recordedAt }: FeedAbsence): CalendarEvent => ({
  uid: `absence-${id}@backsight`,
  startsAt,
  endsAt,
  summary: state === 'asked' ? 'Away (asked for)' : 'Away',
  tentative: state === 'asked',
  sequence: state === 'asked' ? 0 : 1,
  stampedAt: recordedAt,
});
