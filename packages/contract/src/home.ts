// The home: lists of what needs doing now.
import { z } from 'zod';
import { FIRST_STEPS, type FirstStep } from '@backsight/domain/firm/firstSteps';
import { day, instant, route } from './route.ts';

export type { FirstStep };

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
/** `missing`: who or what is still without it. */
const firstStep = z.strictObject({ key: z.enum(FIRST_STEPS), done: z.boolean(), missing: z.array(z.string()) });
export type FirstStepState = z.output<typeof firstStep>;
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
    reply: z.strictObject({
      lists: z.array(list),
      /** Of owner and office while something of it is open: what is done by the records, and what lacks it. */
      firstSteps: z.array(firstStep).optional(),
      /** Beside them: those that an owner left. */
      stepsLeft: z.array(z.string()).optional(),
    }),
  }),
  leaveSteps: route({
    method: 'PUT',
    path: '/api/first-steps/left',
    area: 'home',
    summary: 'Leave first steps of the firm undone: these, and no others',
    who: ['owner'],
    body: z.strictObject({ steps: z.array(z.enum(FIRST_STEPS)).max(FIRST_STEPS.length) }),
    reply: z.strictObject({ steps: z.array(z.enum(FIRST_STEPS)) }),
  }),
};
