import { refusalList } from '../shared/refusal.ts';

export const jobRefusals = refusalList({
  'file-opinions-owner': {
    blame: 'permission',
    sentence: 'Conclusions and money of callbacks are put into a file only by an owner.',
  },
  'file-withhold-owner': {
    blame: 'permission',
    sentence: 'What is held back from a file by hand is chosen only by an owner.',
  },
  'service-not-known': { blame: 'input', sentence: 'There is no service "{service}".' },
  'service-not-offered': { blame: 'input', sentence: '{service}: {why}' },
  'base-service-missing': { blame: 'input', sentence: 'An inspection includes the service "{service}".' },
  'price-changed': { blame: 'conflict', sentence: 'The price is now {nowUsd}, not {toldUsd}. Tell the caller before holding the time.' },
  'ask-owner': { blame: 'permission', sentence: 'Ask the owner before booking for {name}: {reason}' },
  'client-missing': { blame: 'state', sentence: 'A job needs a client before it is confirmed.' },
  'last-client': { blame: 'state', sentence: 'A job keeps at least one client.' },
  'job-is': { blame: 'state', sentence: 'The job is {state}, so this cannot be done any more.' },
  'visit-is': { blame: 'state', sentence: 'The visit is {state}, so this cannot be done any more.' },
  'town-not-known': {
    blame: 'input',
    sentence: 'The firm does not know a town "{town}". Choose one of the list, or give the exact place.',
  },
  'consent-missing': {
    blame: 'input',
    sentence: 'Only the client receives the report; anybody else needs the written consent of the client, with its day.',
  },
  'codes-not-now': {
    blame: 'permission',
    sentence: 'The codes are shown to the people of a visit from the day before until it is over, and at most until the day after.',
  },
  'look-is': { blame: 'state', sentence: 'This later look is {state} already.' },
  'pickup-before': { blame: 'input', sentence: 'The test takes its time: this visit may begin from {earliest} on.' },
  'pickup-too-early': {
    blame: 'conflict',
    sentence: 'The test takes its time: the pick-up would come too soon after the inspection. Move the pick-up first.',
  },
  'visit-state-order': { blame: 'state', sentence: 'The visit is in another state by now, so this cannot be done.' },
  'job-state-order': { blame: 'state', sentence: 'The job is in another state by now, so this cannot be done.' },
  'need-follows': {
    blame: 'state',
    sentence: '"{need}" is not ticked off by hand: it follows from what is signed, paid, told or decided.',
  },
  'nothing-to-decide': { blame: 'state', sentence: 'This is decided already.' },
  'waiver-reason': { blame: 'input', sentence: 'Say why the firm waives what its rule would charge.' },
  'ending-fee-open': { blame: 'state', sentence: 'Decide first what is charged for the visit that ended early.' },
  'nothing-changed': { blame: 'input', sentence: 'Nothing would change.' },
  'not-set-up': { blame: 'state', sentence: 'The firm has no {what} in force yet.' },
});
