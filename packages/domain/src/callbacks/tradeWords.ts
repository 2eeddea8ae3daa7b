// What clients say and what the trade writes: the few words that must meet for a complaint to find its step. Common practice.

/** Words that stand for each other, in their plain form. One that is in two groups stands for the words of both. */
const ALIKE: readonly string[] = [
  'outlet plug receptacle socket',
  'breaker overcurrent fuse',
  'panel enclosure',
  'amp ampere',
  'wire wiring conductor',
  'line cable wire conductor',
  'dead live power juice energized',
  'ground grounding bond bonding',
  'leak drip moisture water stain damp wet seep',
  'flood water',
  'stain spot water',
  'furnace heating burner',
  'boiler heating',
  'heat heating warm',
  'ac hvac aircon conditioner cooling',
  'freon refrigerant cooling',
  'compressor condenser cooling outdoor',
  'spigot tap faucet bib',
  'gutter downspout',
  'toilet commode fixture',
  'sink basin lavatory',
  'pipe tube plumbing line',
  'valve shutoff stop',
  'sewer waste drain',
  'sewage ejector waste',
  'gauge gage reading',
  'tank cylinder',
  'rail railing handrail guard banister',
  'step stair stoop',
  'porch stoop balcony',
  'siding cladding wall covering',
  'detector alarm',
  'flue chimney connector vent',
  'fume draft spillage',
  'soot smoke draft',
  'vent venting duct',
  'exhaust fan',
  'mold mildew fungus growth',
  'rot rotten decay soft mush moisture',
  'crack split break',
  'bow lean bulge',
  'slope fall grade sag',
  'joist framing',
  'rafter truss framing',
  'post column pier',
  'shingle covering',
  'rubber membrane flat',
  'cedar shake wood',
  'disposal disposer',
  'stove range oven cooktop',
  'dryer laundry',
  'washer washing laundry',
  'beam eye sensor',
  'opener door',
  'bug ant termite insect',
  'squirrel mouse animal rodent',
  'tree branch ivy shrub vine plant',
  'driveway drive walk',
  'tempered safety',
  'log fireplace',
  'brick firebrick mortar',
  'irrigation sprinkler',
  'latch gate',
  'scald temperature',
  'window sash',
  'floor flooring',
  'sloping slope level',
  'foam insulation',
  'vermiculite asbestos insulation',
  'dust lint',
  'bathroom bath',
  'gas fuel',
  'oil fuel',
  'unlocked locked lock key',
  'box panel',
];

/** What somebody says in two or three words, and the words to look for besides. */
const PHRASES: readonly (readonly [RegExp, string])[] = [
  [/\b(?:fuse|breaker|electric\w*) box\b/, 'panel'],
  [/\bhot water (?:tank|heater)\b|\bwat+er heater\b/, 'water heater'],
  // Where no breaker is off, a tripped ground-fault device elsewhere is looked for first (common practice).
  [/\b(?:no|lost|without) (?:power|juice|electricity)\b|\bdead\b/, 'power live receptacle ground fault trip reset'],
  [/\b(?:gfci|gfi)s?\b|\b(?:test|reset) button\b|\bbutton\b/, 'ground fault device trip reset'],
  [/\b(?:afci|arc fault)s?\b/, 'arc fault device'],
  [/\bco\b|\bcarbon mon/, 'carbon monoxide'],
  [/\bcrawl ?(?:space|area)\b|\bunder the (?:house|floor)\b/, 'crawl space'],
  [/\bknob\b|\bknob and tube\b/, 'old wiring knob tube'],
  [/\bhot and neutral\b|\bthree light\b|\bwired backwards?\b/, 'polarity receptacle'],
  [/\bsub ?panel\b|\bsecond panel\b/, 'second panel neutral'],
  [/\bdouble tapped\b|\bdoubled? up\b/, 'two wires screw breaker panel'],
  [/\bback(?:ed|s)? up\b/, 'drain sewer'],
  [/\bbath\w* fan\b|\bexhaust fan\b/, 'bath fan duct'],
  [/\b(?:air ?condition\w*|ac unit|central air)\b/, 'cooling'],
  [/\bhvac\b/, 'heating cooling'],
  [/\bwindow (?:ac|air|unit)/, 'window unit room cooling'],
  [/\bgarage door\b|\boverhead door\b/, 'garage door'],
  [/\b(?:safety|photo) ?(?:beam|eye|sensor)s?\b/, 'photo eye'],
  [/\b(?:pull ?down|folding) (?:attic )?(?:ladder|stairs?)\b/, 'folding stair hatch'],
  [/\bwood ?(?:burning )?stove\b/, 'stove heating'],
  [/\bgas ?(?:log|fireplace)s?\b/, 'gas fireplace log'],
  [/\bheat exchanger\b/, 'heating equipment furnace'],
  [/\btemp(?:erature)? rise\b/, 'temperature rise furnace'],
  [/\bice dams?\b|\bice built\b/, 'ice dam eave'],
  [/\bhand ?rail\b/, 'handrail guard stair'],
  [/\bgarbage disposal\b/, 'disposer'],
  [/\bfire ?wall\b|\bfire ?rated\b/, 'separation garage'],
  [/\bway out\b|\begress\b/, 'escape'],
];

/** Words that are said of every house and every visit. */
const COMMON = new Set(
  'the and was were that this with from has have had not for are but his her its our their they them then than there when what which who been after before over under into out all any one two does did can could would should about also more some only very just nothing something house home inspection inspector report says said told found know think tell people guys somebody nobody wont cant dont didnt isnt wasnt youre came come get got went time times day days week weeks month months year years still every now see saw'.split(
    ' ',
  ),
);

/**
 * A word to look for, and how surely it means what was said: 1 as said, less for one that the trade uses instead. Of the words with one
 * `sign` only the best counts: they stand for each other. Those of a phrase are signs of their own.
 */
export type AskedWord = { said: string; word: string; sign: string; weight: number };

const LIKE = 0.55;
const OF_PHRASE = 0.4;

const plain = (word: string): string =>
  word.replace(/(?<=[a-z]{3})(?:ies|es|s)$/, (end) => (end === 'ies' ? 'y' : end === 'es' ? 'e' : ''));
const forms = (word: string): string[] => [...new Set([word, plain(word), word.replace(/(?<=[a-z]{3})(?:es|ing|ed|s)$/, '')])];

const others: ReadonlyMap<string, readonly string[]> = ALIKE.map((group) => group.split(' ')).reduce((map, group) => {
  for (const word of group) map.set(word, [...new Set([...(map.get(word) ?? []), ...group.filter((other) => other !== word)])]);
  return map;
}, new Map<string, string[]>());

/** Longest text that is read for words, in characters: a look must not grow with what was pasted. */
const READ_AT_MOST = 4000;
const WORDS_AT_MOST = 120;

/** The three-letter pieces of a word, as pg_trgm makes them: with two blanks before it and one behind. */
const pieces = (word: string): Set<string> => new Set(Array.from({ length: word.length + 1 }, (_, at) => `  ${word} `.slice(at, at + 3)));
const known = [...others.keys()].map((word) => ({ word, pieces: pieces(word) }));
const ALIKE_ENOUGH = 0.5;

/** The word of the lists above that a longer unknown word is likest to, if it is like enough: 'outlett', 'recepticle'. */
function meant(word: string): { word: string; near: number } | null {
  if (word.length < 5 || forms(word).some((form) => others.has(form))) return null;
  const own = pieces(word);
  let best = { word: '', near: 0 };
  for (const one of known) {
    if (one.word[0] !== word[0]) continue;
    const common = [...own].filter((piece) => one.pieces.has(piece)).length;
    const near = common / (own.size + one.pieces.size - common);
    if (near > best.near) best = { word: one.word, near };
  }
  return best.near >= ALIKE_ENOUGH ? best : null;
}

/**
 * The words of a complaint in small letters, each with those that the trade says instead (weight below 1). What is said twice counts once.
 * PostgreSQL takes them to their stems afterwards, and leaves out the words that say nothing.
 */
export function askedWords(text: string): AskedWord[] {
  const low = text.slice(0, READ_AT_MOST).toLowerCase().replace(/['’]/g, '');
  const asked = new Map<string, AskedWord>();
  const ask = (said: string, word: string, weight: number, sign = said): void => {
    const key = `${said} ${word}`;
    if ((asked.get(key)?.weight ?? 0) < weight) asked.set(key, { said, word, sign, weight });
  };
  const words = [...new Set(low.match(/[a-z]{2,}/g) ?? [])].filter((word) => !COMMON.has(word));
  for (const word of words.slice(0, WORDS_AT_MOST)) {
    ask(word, word, 1);
    for (const form of forms(word)) for (const other of others.get(form) ?? []) ask(word, other, LIKE);
    const spelled = meant(word);
    if (spelled) for (const other of [spelled.word, ...others.get(spelled.word)!]) ask(word, other, LIKE * spelled.near);
  }
  for (const [phrase, instead] of PHRASES) {
    const found = phrase.exec(low)?.[0];
    if (found) for (const word of instead.split(' ')) if (!asked.has(`${word} ${word}`)) ask(found, word, OF_PHRASE, word);
  }
  return [...asked.values()];
}

const stems = (text: string): Set<string> =>
  new Set(
    (text.toLowerCase().match(/[a-z]{3,}/g) ?? [])
      .filter((word) => !COMMON.has(word))
      .map((word) => word.replace(/(?:ings?|ed|es|s)$/, '').slice(0, 7)),
  );

/** Whether two texts have a word in common that says something. */
export const sharesWords = (a: string, b: string): boolean => {
  const held = stems(b);
  return [...stems(a)].some((word) => held.has(word));
};
