// Events of a callback whose words and details are opinions or money.
export const CONFIDENTIAL: readonly string[] = [
  'concluded',
  'conclusion_confirmed',
  'account_asked',
  'account_given',
  'counsel_marked',
  'reserve_changed',
  'cleared',
  'recovered',
  'paid',
];
