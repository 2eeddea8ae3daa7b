// What is wrong with an input, in plain words instead of the schema library's: set once for every schema of the contract.
import { z } from 'zod';

type Issue = Parameters<NonNullable<NonNullable<Parameters<typeof z.config>[0]>['customError']>>[0];

const NEEDED = 'This is needed.';
/** Where nothing more can be said of it: never the library's own words, which speak of patterns and types. */
const NOT_TAKEN = 'This cannot be taken as it is.';

const FORMATS: Record<string, string> = {
  email: 'This is not an e-mail address.',
  uuid: 'This is not a known id.',
  date: 'This is not a day like 2026-05-12.',
  datetime: 'This is not a date with time and zone like 2026-05-12T09:00:00-05:00.',
  url: 'This is not an address of a web page.',
};

const TYPES: Record<string, string> = {
  string: 'Text is needed.',
  number: 'A number is needed.',
  int: 'A whole number is needed.',
  boolean: 'Yes or no is needed.',
  array: 'A list is needed.',
  object: 'A group of values is needed.',
};

const COUNTED: Record<string, string> = { string: ' characters', array: ' entries', set: ' entries' };

function tooSmall(issue: Issue & { code: 'too_small' }): string {
  if (issue.origin === 'string' && Number(issue.minimum) === 1) return NEEDED;
  if (issue.origin === 'array' && Number(issue.minimum) === 1) return 'At least one is needed.';
  return `${issue.inclusive === false ? 'More than' : 'At least'} ${issue.minimum}${COUNTED[issue.origin] ?? ''}.`;
}

/** A sentence about one issue. */
export function plainWords(issue: Issue): string {
  if (
    issue.code !== 'custom' &&
    issue.code !== 'unrecognized_keys' &&
    issue.code !== 'invalid_key' &&
    (issue.input === undefined || issue.input === null || issue.input === '')
  )
    return NEEDED;
  switch (issue.code) {
    case 'too_small':
      return tooSmall(issue as Issue & { code: 'too_small' });
    case 'too_big':
      return `${issue.inclusive === false ? 'Less than' : 'At most'} ${issue.maximum}${COUNTED[issue.origin as string] ?? ''}.`;
    case 'invalid_type':
      return TYPES[issue.expected as string] ?? NOT_TAKEN;
    case 'invalid_format':
      return FORMATS[issue.format as string] ?? NOT_TAKEN;
    case 'invalid_value':
      return `One of these is needed: ${(issue.values as unknown[]).join(', ').replaceAll('_', ' ')}.`;
    case 'unrecognized_keys':
      return `Not known here: ${(issue.keys as string[]).join(', ')}.`;
    default:
      return NOT_TAKEN;
  }
}

z.config({ customError: plainWords });
