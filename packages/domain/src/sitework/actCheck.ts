// Takes in one act: does it name things of this record, and are the words there without which it says nothing?
import { accept, refuse, type Outcome, type Refusal, type Warning } from '../shared/outcome.ts';
import { actKey, type ActWords, type KnownAct, type SiteAct } from './act.ts';
import { deviceTests } from './deviceTest.ts';
import { lookAt, STOPS } from './hazards.ts';
import type { RecordItem } from './items.ts';
import { toldOf, notRestored } from './restore.ts';

export type ActContext = {
  acts: readonly KnownAct[];
  items: readonly RecordItem[];
  pair: readonly string[];
  stepKeys: ReadonlySet<string>;
  /** Photos that were named and have not come. */
  photosToCome: ReadonlySet<string>;
};
type Given = { act: SiteAct; words: ActWords; stepKey: string };

const unknown = (thing: string): Refusal => refuse('act-unknown-thing', { thing }, 'act');
const lacks = (what: string): Refusal => refuse('act-words-missing', { what }, 'act.words');
const said = (text: string | undefined): boolean => text !== undefined && text.trim() !== '';

const deviceRule = ({ act }: Given, { items }: ActContext): Refusal | null =>
  !('device' in act) || items.some(({ id, kind }) => id === act.device && kind === 'ground_fault_device')
    ? null
    : unknown('ground-fault device');

const outletRule = ({ act }: Given, { acts }: ActContext): Refusal | null => {
  if (act.do !== 'trip' && act.do !== 'power_back') return null;
  const noted = new Set(
    deviceTests(acts)
      .get(act.device)
      ?.outlets.map(({ id }) => id),
  );
  const named = act.do === 'trip' ? act.dead : [...act.live, ...act.dead];
  return named.every((id) => noted.has(id)) ? null : unknown('receptacle');
};

const earlierRule = ({ act }: Given, { acts }: ActContext): Refusal | null => {
  const has = (kind: SiteAct['do'], id: string) => acts.some((known) => known.id === id && known.act.do === kind);
  if (act.do === 'put_back') return has('changed', act.of) ? null : unknown('change');
  if (act.do === 'came_out') return has('went_in', act.of) ? null : unknown('entry into the place');
  if (act.do !== 'told') return null;
  const known = new Set([...notRestored(acts).map(({ ref }) => ref), ...toldOf(acts)]);
  return act.of.every((ref) => known.has(ref)) ? null : unknown('thing to restore');
};

const hazardRule = ({ act }: Given, { items }: ActContext): Refusal | null => {
  if (act.do !== 'hazard_look') return null;
  if (act.place === 'panel' && !items.some(({ id, kind }) => id === act.item && kind === 'panel')) return unknown('electrical panel');
  return act.stops.every((stop) => stop in STOPS[act.place]) ? null : unknown('line of the stop list');
};

const peopleRule = ({ act }: Given, { pair, stepKeys }: ActContext): Refusal | null => {
  if (act.do === 'went_in' && pair.length < 2) return refuse('not-alone', {}, 'act');
  if (act.do === 'divide' && !act.parts.every(({ person }) => pair.includes(person))) return unknown('member of the pair');
  if (act.do === 'signed_off' && Date.parse(act.until) < Date.parse(act.from)) return refuse('times-on-site', {}, 'act.until');
  return act.do === 'settled' && !stepKeys.has(act.stepKey) ? unknown('step') : null;
};

const wordsRule = ({ act, words }: Given): Refusal | null => {
  if ((act.do === 'outlet' || act.do === 'changed') && !said(words.where)) return lacks('where it is');
  if (act.do === 'outlet' && !act.reached && !said(words.appliance)) return lacks('which appliance it feeds and what it shows');
  if (act.do === 'told' && !(said(words.client) && said(words.office))) return lacks('who was told of the client and of the office');
  if (act.do === 'damage' && !said(words.note)) return lacks('what happened');
  if (act.do === 'photo_lost' && act.why === 'other' && !said(words.note)) return lacks('why the photo will not come');
  return act.do === 'settled' && !said(words.note) ? lacks('why the one answer stands') : null;
};

const keyRule = ({ act, stepKey }: Given): Refusal | null => (stepKey === actKey(act.do) ? null : refuse('act-key', {}, 'stepKey'));

const photoRule = ({ act }: Given, { photosToCome }: ActContext): Refusal | null =>
  act.do !== 'photo_lost' || photosToCome.has(act.photo) ? null : unknown('photo');

const RULES = [keyRule, photoRule, deviceRule, outletRule, earlierRule, hazardRule, peopleRule, wordsRule];

/** Refuses what cannot be; what was done in an unusual order is taken in and said, because it happened. */
export function checkAct(given: Given, context: ActContext): Outcome<null> {
  const no = RULES.map((rule) => rule(given, context)).find((refusal) => refusal !== null);
  return no ?? accept(null, warningsOf(given, context));
}

function warningsOf({ act }: Given, { acts }: ActContext): Warning[] {
  if (act.do === 'trip' && !acts.some((known) => known.act.do === 'loads'))
    return [{ code: 'loads-not-asked', text: 'Power was interrupted before it was asked what must not lose power.' }];
  if (act.do === 'reset' && !acts.some((known) => known.act.do === 'trip' && known.act.device === act.device))
    return [{ code: 'not-tripped', text: 'This device is not on record as tripped.' }];
  if (act.do !== 'went_in') return [];
  const look = lookAt(acts, act.place, null);
  if (look === null) return [{ code: 'not-looked', text: 'Somebody went in before the stop list was gone through.' }];
  return look.stops.length > 0 ? [{ code: 'despite-a-stop', text: 'Somebody went in although something on the stop list was there.' }] : [];
}
