import { refusalList } from '../shared/refusal.ts';

/** Refusals about who else comes to a visit, and about holds. */
export const crewRefusals = refusalList({
  'person-elsewhere': { blame: 'conflict', sentence: 'This person is on another visit at that time.' },
  'observer-taken': { blame: 'conflict', sentence: 'This person comes along on another visit at that time.' },
  'observer-in-pair': { blame: 'input', sentence: '{name} is one of the pair already.' },
  'observer-there': { blame: 'input', sentence: '{name} comes along already.' },
  'observer-not-free': { blame: 'conflict', sentence: '{sentences}' },
  'provider-taken': { blame: 'conflict', sentence: 'The outside provider was booked elsewhere for this time just now.' },
  'provider-other-service': { blame: 'input', sentence: '{name} does not do this service.' },
  'provider-ended': { blame: 'input', sentence: '{name} no longer works with the firm.' },
  'provider-not-free': { blame: 'conflict', sentence: '{sentence}' },
  'service-not-outside': { blame: 'input', sentence: 'This job has no such service that an outside provider does.' },
  'hold-over': { blame: 'state', sentence: 'The hold has ended. Confirm the booking if the time is still free, or choose another start.' },
  'hold-extended': { blame: 'state', sentence: 'This hold was extended once already. Confirm the booking, or let the time go.' },
  'lead-decides': { blame: 'permission', sentence: 'A lead inspector decides whether the same people may go to this house again.' },
  'reinspection-of': { blame: 'state', sentence: 'A re-inspection belongs to an inspection that has taken place.' },
});
