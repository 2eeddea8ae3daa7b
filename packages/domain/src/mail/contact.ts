// Calls, texts and talks at the door: what is logged of them, and the text that is prepared for the phone.
import { refuse, type Refusal } from '../shared/outcome.ts';

export const CHANNELS = { call: 'call', text: 'text', doorstep: 'at the door' } as const;
export const OUTCOMES = { reached: 'reached', left_word: 'left word', no_answer: 'no answer' } as const;
export const ASSISTANCE = { none: 'none', relay: 'relay call', interpreter: 'interpreter' } as const;
export type Channel = keyof typeof CHANNELS;
export type ContactOutcome = keyof typeof OUTCOMES;
export type Assistance = keyof typeof ASSISTANCE;

/** Why a contact cannot be logged, or null. */
export function contactProblem(
  contact: { partyId: string; happenedAt: Date },
  facts: { parties: readonly string[]; now: Date },
): Refusal | null {
  if (!facts.parties.includes(contact.partyId)) return refuse('contact-not-of-job', {}, 'partyId');
  return contact.happenedAt > facts.now ? refuse('contact-ahead', {}, 'happenedAt') : null;
}

/** A short text about the appointment, to be read over before it is sent. */
export const textFor = (m: { firm: string; firmPhone: string; address: string; appointment: string | null }): string =>
  m.appointment === null
    ? `${m.firm}: about ${m.address}. Please call us at ${m.firmPhone}.`
    : `${m.firm}: your appointment at ${m.address} is ${m.appointment}. Questions? ${m.firmPhone}`;
