import { refusalList } from '../shared/refusal.ts';

export const scheduleRefusals = refusalList({
  'person-taken': { blame: 'conflict', sentence: 'Somebody else has just taken this time of the pair. {choices}' },
  'start-not-possible': { blame: 'conflict', sentence: '{sentences} {choices}' },
  'start-is-past': { blame: 'input', sentence: 'This start is in the past.' },
  'start-not-real': { blame: 'input', sentence: 'There is no {time} on {day}: the clocks change.' },
  'visit-crew-complete': { blame: 'conflict', sentence: 'A visit goes out with exactly the people that its kind takes.' },
  'visit-kind-not-known': { blame: 'input', sentence: 'There is no kind of visit "{kind}".' },
});
