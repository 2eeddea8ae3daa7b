// Why a clock, a pause, an alert of danger or something about a legal paper may be refused.
import { refusalList } from '../shared/refusal.ts';

export const clockRefusals = refusalList({
  'clock-not-of-kind': { blame: 'input', sentence: 'Callbacks of this kind have no such clock.' },
  'clock-amount': { blame: 'input', sentence: 'Give a whole number from 1 to {most}.' },
  'clock-unit': { blame: 'input', sentence: 'This is counted in {units}.' },
  'pause-open-already': { blame: 'conflict', sentence: 'The clocks stand still already.' },
  'pause-not-open': { blame: 'state', sentence: 'The clocks are not standing still.' },
  'nothing-stands-still': {
    blame: 'state',
    sentence:
      'Only the clocks of {clocks} may wait for the client, and only before they are overdue: none of them runs here. Nothing else waits.',
  },
  'on-call-no-day': { blame: 'input', sentence: 'Choose at least one day of the week.' },
  'no-danger-here': { blame: 'state', sentence: 'Nobody was alerted about this.' },
  'safety-as-it-is': { blame: 'state', sentence: 'It is {marked} already.' },
  'no-legal-paper': { blame: 'state', sentence: 'This is no legal paper.' },
  'ticked-already': { blame: 'conflict', sentence: 'This is ticked already.' },
  'before-service': { blame: 'input', sentence: 'The paper was served on {servedOn}; this cannot have been before.' },
  'paper-answered-already': { blame: 'conflict', sentence: 'The paper is answered already.' },
  'no-injury-of-ours': { blame: 'state', sentence: 'Only damage or injury during a visit can be an injury of somebody of ours.' },
  'injury-times-backwards': {
    blame: 'input',
    sentence: 'The times run backwards: first the accident, then what came of it, then when you heard of it, and none in the future.',
  },
  'injury-reported-already': { blame: 'conflict', sentence: 'This is reported already.' },
});
