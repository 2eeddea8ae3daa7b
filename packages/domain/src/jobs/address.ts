// One address, one key: the many ways of writing a street come to the same text, so that no property is filed twice.
// Suffixes, directions and unit words after U.S. Postal Service Publication 28 ("Postal Addressing Standards"), appendices B and C.

const WORDS: Record<string, string> = {
  avenue: 'ave',
  av: 'ave',
  boulevard: 'blvd',
  circle: 'cir',
  court: 'ct',
  cove: 'cv',
  crossing: 'xing',
  drive: 'dr',
  expressway: 'expy',
  highway: 'hwy',
  hill: 'hl',
  landing: 'lndg',
  lane: 'ln',
  parkway: 'pkwy',
  place: 'pl',
  point: 'pt',
  ridge: 'rdg',
  road: 'rd',
  square: 'sq',
  street: 'st',
  str: 'st',
  terrace: 'ter',
  trail: 'trl',
  way: 'way',
  north: 'n',
  south: 's',
  east: 'e',
  west: 'w',
  northeast: 'ne',
  northwest: 'nw',
  southeast: 'se',
  southwest: 'sw',
  apartment: 'unit',
  apt: 'unit',
  suite: 'unit',
  ste: 'unit',
  '#': 'unit',
  no: 'unit',
  first: '1st',
  second: '2nd',
  third: '3rd',
  fourth: '4th',
  fifth: '5th',
  sixth: '6th',
  seventh: '7th',
  eighth: '8th',
  ninth: '9th',
  tenth: '10th',
};

const plain = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[’'.]/g, '')
    .replace(/#/g, ' # ')
    .replace(/[^\p{L}\p{N}#]+/gu, ' ')
    .trim();

/** Key of an address within its town: '12 North Main Street, Apt. 3' and '12 n main st #3' are one. */
export const addressKey = (address: string, town: string): string => {
  const words = plain(address)
    .split(' ')
    .map((word) => WORDS[word] ?? word);
  const once = words.filter((word, at) => word !== 'unit' || words[at - 1] !== 'unit');
  return `${once.join(' ')}|${plain(town)}`;
};
