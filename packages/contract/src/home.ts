// The home: lists of what needs doing now.
import { z } from 'zod';
import { day, instant, route } from './route.ts';

export const HOME_KEYS = [
  'dangerUnanswered',
  'legalOverdue',
  'injuriesToReport',
  'sameDayMissing',
  'callbacksDueToday',
  'waitingLong',
  'legalPapers',
  'appealsToDecide',
  'afterChecks',
  'remediesToApprove',
  'clearancesNeeded',
  'absencesAsked',
  'visitsOfAbsent',
  'kitShort',
  'lapsing',
  'overridesUsed',
  'handedOverUnpaid',
  'callbacksToLookInto',
  'recordsUnsealed',
  'myActions',
  'myReviews',
  'reportsDue',
  'draftsToApprove',
  'textsToApprove',
  'rulesSetAside',
  'notAcknowledged',
  'myVisits',
  'myRecords',
  'myAccounts',
  'myAcknowledgements',
  'myLapsing',
  'callbacksOverdue',
  'clientsToCall',
  'jobsWithoutTime',
  'holdsEnding',
  'tomorrowMissing',
  'toDecide',
  'laterVisits',
  'resultsAwaited',
  'inquiriesDue',
  'laterLooks',
  'mailPaused',
  'mailFailed',
  'addressesToAsk',
  'unsigned',
  'unpaidDue',
  'paymentsBack',
] as const;

const item = z.strictObject({
  id: z.string(),
  thing: z.strictObject({ kind: z.string(), id: z.string() }),
  title: z.string(),
  detail: z.string(),
  at: instant.nullable(),
  day: day.nullable(),
});
const list = z.strictObject({ key: z.enum(HOME_KEYS), count: z.int(), items: z.array(item) });
export type HomeKey = (typeof HOME_KEYS)[number];
export type HomeList = z.output<typeof list>;
export type HomeItem = z.output<typeof item>;

export const homeRoutes = {
  home: route({
    method: 'GET',
    path: '/api/home',
    area: 'home',
    summary: 'What needs doing now, for whoever is signed in: the first lines of each list, or one list whole',
    who: 'signed_in',
    query: z.strictObject({ list: z.enum(HOME_KEYS).optional() }),
    reply: z.strictObject({ lists: z.array(list) }),
  }),
};
