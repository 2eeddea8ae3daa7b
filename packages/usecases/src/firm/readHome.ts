// The home of whoever is signed in: what needs doing now, the weightiest first.
import { DateTime } from 'luxon';
import { firstSteps, stepsShown, type StepState } from '@backsight/domain/firm/firstSteps';
import type { Role } from '@backsight/domain/people/roles';
import { shiftDay, type BusinessCalendar } from '@backsight/domain/shared/calendar';
import { weekdayOf } from '@backsight/domain/schedule/wallClock';
import { homeList, type HomeListKey, type HomeRow } from '@backsight/store/home';
import type { HomeAsk } from '@backsight/store/home/sql';
import { everSigned, firstFacts, stepsLeft } from '@backsight/store/firm/firstSteps';
import { PEOPLE_LISTS, peopleList, type PeopleListKey } from '@backsight/store/people/home';
import type { Reader } from '@backsight/store/database';
import { pressingLapses, type Lapse } from '../people/steps/lapses.ts';
import { reportsDue } from '../sitework/steps/reportsDue.ts';
import { pausedSince } from '../callbacks/steps/pausedSince.ts';
import { calendarOf } from './steps/calendar.ts';
import { localDay } from './steps/localDay.ts';

type Key = HomeListKey | PeopleListKey | 'lapsing' | 'myLapsing' | 'reportsDue';

/** The lists of each role in order of consequence; one who holds several roles sees each list once, the owner's first. */
const LISTS: readonly (readonly [Role, readonly Key[]])[] = [
  [
    'owner',
    [
      'dangerUnanswered',
      'legalOverdue',
      'injuriesToReport',
      'sameDayMissing',
      'callbacksOverdue',
      'callbacksDueToday',
      'legalPapers',
      'appealsToDecide',
      'remediesToApprove',
      'clearancesNeeded',
      'afterChecks',
      'myActions',
      'myReviews',
      'handedOverUnpaid',
      'mailFailed',
      'absencesAsked',
      'lapsing',
      'textsToApprove',
      'overridesUsed',
      'rulesSetAside',
    ],
  ],
  [
    'lead_inspector',
    [
      'dangerUnanswered',
      'callbacksOverdue',
      'callbacksDueToday',
      'callbacksToLookInto',
      'recordsUnsealed',
      'reportsDue',
      'waitingLong',
      'myActions',
      'myReviews',
      'draftsToApprove',
      'absencesAsked',
      'notAcknowledged',
      'myAccounts',
      'afterChecks',
    ],
  ],
  ['inspector', ['dangerUnanswered', 'myVisits', 'myRecords', 'myActions', 'myAccounts', 'myAcknowledgements', 'myLapsing']],
  [
    'office_manager',
    [
      'dangerUnanswered',
      'callbacksOverdue',
      'callbacksDueToday',
      'holdsEnding',
      'clientsToCall',
      'jobsWithoutTime',
      'visitsOfAbsent',
      'tomorrowMissing',
      'mailPaused',
      'mailFailed',
      'kitShort',
      'toDecide',
      'unsigned',
      'paymentsBack',
      'waitingLong',
      'afterChecks',
      'myActions',
      'laterVisits',
      'resultsAwaited',
      'inquiriesDue',
      'laterLooks',
      'absencesAsked',
      'addressesToAsk',
      'unpaidDue',
      'textsToApprove',
      'lapsing',
    ],
  ],
];

/** Lines of each list on the home itself; the rest is a list of its own. */
const LINES = 5;

export type HomeItem = {
  id: string;
  thing: { kind: string; id: string };
  title: string;
  detail: string;
  at: string | null;
  day: string | null;
};
export type HomeList = { key: Key; count: number; items: HomeItem[] };

/** Every list that the roles call for, empty ones too, each with its first lines and how many there are; or `only` one of them, whole. */
export async function readHome(
  reader: Reader,
  who: { personId: string; roles: readonly Role[]; now: Date; only?: string | undefined },
): Promise<{ lists: HomeList[]; firstSteps?: StepState[]; stepsLeft?: string[] }> {
  const ask = await askOf(reader, who.personId, who.now);
  const all = [...new Set(LISTS.filter(([role]) => who.roles.includes(role)).flatMap(([, lists]) => lists))];
  const keys = who.only ? all.filter((key) => key === who.only) : all;
  const lists = await Promise.all(
    keys.map((key) => {
      if (key === 'reportsDue') return reports(reader, ask);
      return key === 'lapsing' || key === 'myLapsing' ? lapsing(reader, key, ask) : listed(reader, key, ask);
    }),
  );
  if (who.only) return { lists };
  const begins = who.roles.some((role) => BEGIN.includes(role));
  return {
    lists: lists.map((list) => ({ ...list, items: list.items.slice(0, LINES) })),
    ...(begins ? await begun(reader, ask.today) : {}),
  };
}

/** The steps that are open, with those that were left; nothing when none is. Nobody sets up the demo firm. */
async function begun(reader: Reader, today: string): Promise<{ firstSteps?: StepState[]; stepsLeft?: string[] }> {
  const [signed, left, facts] = await Promise.all([everSigned(reader), stepsLeft(reader), firstFacts(reader, today)]);
  if (signed && facts.demo) return {};
  const steps = stepsShown(firstSteps(facts), { signed, left });
  return steps.length > 0 ? { firstSteps: steps, stepsLeft: left } : {};
}

/** Who brings a new firm to its first signed agreement. */
const BEGIN: readonly Role[] = ['owner', 'office_manager'];

async function askOf(reader: Reader, me: string, now: Date): Promise<HomeAsk> {
  const [{ zone, today }, calendar] = await Promise.all([localDay(reader, now), calendarOf(reader, null, now)]);
  const at = DateTime.fromISO(today, { zone });
  return {
    now: now.toISOString(),
    me,
    today,
    zone,
    tomorrow: at.plus({ days: 1 }).toISODate()!,
    nextOpen: nextOpenDay(calendar, today),
    monthStart: at.startOf('month').toJSDate().toISOString(),
    pausedSince: await pausedSince(reader, { now, today, zone, calendar }),
  };
}

const LONGEST_PAUSE = 14;

/** The day, after today, on which the office is open again: what is missing until its end is got now or not at all. */
function nextOpenDay({ hours, closedDays }: BusinessCalendar, today: string): string {
  const days = Array.from({ length: LONGEST_PAUSE }, (_, at) => shiftDay(today, at + 1));
  return days.find((day) => hours[weekdayOf(day) as keyof typeof hours] !== null && !closedDays.includes(day)) ?? days[0]!;
}

const ofPeople = (key: HomeListKey | PeopleListKey): key is PeopleListKey => (PEOPLE_LISTS as string[]).includes(key);

async function listed(reader: Reader, key: HomeListKey | PeopleListKey, ask: HomeAsk): Promise<HomeList> {
  const rows: HomeRow[] = ofPeople(key) ? await peopleList(reader, key, ask) : await homeList(reader, key, ask);
  return {
    key,
    count: rows[0]?.all ?? 0,
    items: rows.map(({ id, thingKind, thingId, title, detail, at, day }) => ({
      id,
      thing: { kind: thingKind, id: thingId },
      title,
      detail,
      at: at?.toISOString() ?? null,
      day,
    })),
  };
}

async function lapsing(reader: Reader, key: 'lapsing' | 'myLapsing', ask: HomeAsk): Promise<HomeList> {
  const rows = (await pressingLapses(reader, ask.today)).filter(({ personId }) => key === 'lapsing' || personId === ask.me);
  const items = rows.map((row) => ({
    id: `${row.kind} ${row.id} ${row.what}`,
    thing: thingOf(row),
    title: row.who,
    detail: row.lapsed ? `${row.what}, overdue` : row.what,
    at: null,
    day: row.on,
  }));
  return { key, count: rows.length, items };
}

async function reports(reader: Reader, ask: HomeAsk): Promise<HomeList> {
  const rows = await reportsDue(reader, new Date(ask.now));
  const items = rows.map(({ jobId, number, where, dueAt, overdue }) => ({
    id: jobId,
    thing: { kind: 'report', id: jobId },
    title: where,
    detail: `Job ${number}, report not handed over${overdue ? ', overdue' : ''}`,
    at: dueAt,
    day: null,
  }));
  return { key: 'reportsDue', count: rows.length, items };
}

/** Kit is looked for by its serial number, which ends what is said of it: 'calibration of MOI-120'. */
const thingOf = ({ kind, id, personId, what }: Lapse): HomeItem['thing'] => {
  if (personId) return { kind: 'person', id: personId };
  return kind.startsWith('kit') ? { kind: 'kit_piece', id: what.slice(what.indexOf(' of ') + 4) } : { kind, id };
};
