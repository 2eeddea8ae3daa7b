// Accounts of the two of the pair: what each saw and did, each given before anything of the other's is seen.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { State } from './words.ts';

/** Prompts ask what was seen and done, never whose fault it was. */
export const ACCOUNT_PROMPTS = {
  seen: 'What did you see there?',
  did: 'What did you do there, in which order?',
} as const;

/** Somebody is asked once, while the callback is open, and only who was on the job. */
export function mayAsk(facts: { state: State; onTheJob: boolean; askedAlready: boolean; name: string }): Outcome<null> {
  if (facts.state === 'closed') return refuse('callback-state', { state: 'closed', needed: 'open' });
  if (!facts.onTheJob) return refuse('account-not-on-the-job', { name: facts.name });
  return facts.askedAlready ? refuse('account-asked-already', { name: facts.name }) : accept(null);
}

/** `given`: accounts of this person so far. What was given stays as it is; `further` says that this one is added to it. */
export function mayGive(facts: { asked: boolean; given: number }, further: boolean): Outcome<number> {
  if (!facts.asked) return refuse('account-not-asked');
  if (facts.given > 0 && !further) return refuse('account-given-already');
  if (facts.given === 0 && further) return refuse('account-none-yet');
  return accept(facts.given + 1);
}

/** Whether somebody who judges callbacks may read the accounts: who was asked as well gives the own one first. */
export const mayReadAccounts = (viewer: string, requests: readonly { personId: string; given: number }[]): boolean =>
  !requests.some(({ personId, given }) => personId === viewer && given === 0);
