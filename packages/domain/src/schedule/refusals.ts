import { refusalList } from '../shared/refusal.ts';
import { crewRefusals } from './crewRefusals.ts';
import { planRefusals } from './planRefusals.ts';

export const scheduleRefusals = refusalList({
  ...crewRefusals,
  ...planRefusals,
  'person-taken': { blame: 'conflict', sentence: 'Somebody else has just taken this time of the pair. {choices}' },
  'start-not-possible': { blame: 'conflict', sentence: '{sentences} {choices}' },
  'start-is-past': { blame: 'input', sentence: 'This start is in the past.' },
  'start-not-real': { blame: 'input', sentence: 'There is no {time} on {day}: the clocks change.' },
  'visit-crew-complete': { blame: 'conflict', sentence: 'A visit goes out with exactly the people that its kind takes.' },
  'visit-kind-not-known': { blame: 'input', sentence: 'There is no kind of visit "{kind}".' },
  'drive-ahead': { blame: 'input', sentence: 'A drive cannot be recorded for a time to come.' },
  'drive-of-another-day': { blame: 'input', sentence: 'This time is more than 12 hours from the start of the visit.' },
  'drive-backwards': { blame: 'input', sentence: 'Setting out comes before arriving.' },
  'place-zero': { blame: 'input', sentence: '0, 0 lies in the sea off Africa. Give the latitude and the longitude of the house.' },
  'zip-not-known': { blame: 'input', sentence: 'No place is known for the ZIP code {zip}. Give the exact place of the house.' },
  'travel-rule-one-place': { blame: 'input', sentence: 'The two areas are the same. Give the one that is driven to.' },
  'travel-rule-ended': { blame: 'state', sentence: 'This was ended already.' },
});
