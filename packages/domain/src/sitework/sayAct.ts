// What the pair did besides the steps, in plain words, for screens and papers.
import { HAZARD_PLACES } from '../shared/places.ts';
import {
  ANIMALS,
  CHANGES,
  DAMAGES,
  DANGERS,
  HOUSE,
  IN_VIEW,
  LOADS,
  PHOTO_LOST,
  RAIN,
  RECORDING,
  SNOW,
  TRIPPED,
  TRIPPED_BY,
  UTILITY,
  WHO_IS_THERE,
  type KnownAct,
} from './act.ts';
import { STOPS } from './hazards.ts';

/** Names of things, persons and steps by id or key, and the clock time of an instant. */
export type Naming = {
  thing: (id: string) => string;
  person: (id: string) => string;
  step: (key: string) => string;
  clock: (iso: string) => string;
};

/** What an earlier act is called where a later one speaks of it; null for an id that is none of theirs. */
export function nameOfAct(acts: readonly KnownAct[], id: string): string | null {
  const found = acts.find((known) => known.id === id);
  if (found?.act.do === 'changed') return `${CHANGES[found.act.thing]}, ${found.words.where ?? ''}`;
  return found?.act.do === 'went_in' ? HAZARD_PLACES[found.act.place] : null;
}

const list = (words: readonly string[], none: string): string => (words.length === 0 ? none : words.join(', '));
const several = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

/** The sentence of an act with its words. */
export function sayAct({ act, words }: KnownAct, naming: Naming): string {
  const said = (text: string | undefined, before = ''): string => (text ? `${before}${text}` : '');
  switch (act.do) {
    case 'arrival':
      return `${WHO_IS_THERE[act.there]}; animals: ${ANIMALS[act.animals]}; recording devices: ${RECORDING[act.recording]}; in view: ${list(
        act.inView.map((key) => IN_VIEW[key]),
        'nothing',
      )}`;
    case 'conditions':
      return `${act.outdoorF} F outdoors; rain in the last 48 hours: ${RAIN[act.rain48]}; snow: ${SNOW[act.snow]}; water ${UTILITY[act.water]}, gas ${UTILITY[act.gas]}, electricity ${UTILITY[act.electricity]}; ${HOUSE[act.house]}${said(words.note, '. ')}`;
    case 'loads':
      return `${act.asked === 'occupant' ? 'The occupant was asked' : 'The house was looked through'}: ${list(
        act.loads.map((key) => LOADS[key]),
        'none',
      )}${said(words.where, '. ')}`;
    case 'divide':
      return act.parts.map(({ system, person }) => `${system}: ${naming.person(person)}`).join(', ');
    case 'outlet':
      return `${naming.thing(act.device)}: ${words.where ?? 'receptacle'}${act.reached ? ', live' : `, not reached: ${words.appliance ?? ''}${act.runs ? ', running' : ', not running'}`}`;
    case 'trip':
      return `${naming.thing(act.device)}: ${TRIPPED[act.result]} (${TRIPPED_BY[act.by]}); ${several(act.dead.length, 'receptacle')} went dead`;
    case 'reset':
      return `${naming.thing(act.device)}: ${act.resets ? 'resets' : 'does not reset'}`;
    case 'power_back':
      return `${naming.thing(act.device)}: ${act.live.length} live again${act.dead.length > 0 ? `, ${act.dead.length} still dead` : ''}`;
    case 'changed':
      return `${CHANGES[act.thing]}, ${words.where ?? ''}${said(words.was, '; was ')}`;
    case 'put_back':
      return naming.thing(act.of);
    case 'told':
      return `${several(act.of.length, 'thing')} not as found; client: ${words.client ?? ''}; office: ${words.office ?? ''}`;
    case 'hazard_look': {
      const place = act.item ? naming.thing(act.item) : HAZARD_PLACES[act.place];
      const stops: Record<string, string> = STOPS[act.place];
      return `${place}: ${act.stops.length === 0 ? 'nothing on the stop list' : act.stops.map((key) => stops[key] ?? key).join('; ')}`;
    }
    case 'went_in':
      return `${HAZARD_PLACES[act.place]}, back by ${naming.clock(act.backBy)}`;
    case 'came_out':
      return naming.thing(act.of);
    case 'danger':
      return `${DANGERS[act.what]}; ${act.house === 'told' ? `people in the house told${said(words.house, ': ')}` : 'nobody else in the house'}${act.called ? `; called: ${words.called ?? 'yes'}` : ''}${said(words.note, '. ')}`;
    case 'damage':
      return act.what === 'injury'
        ? `${DAMAGES.injury}; what happened is with the owner`
        : `${words.where ? `${words.where}: ` : ''}${words.note ?? ''}${said(words.client, '; told: ')}`;
    case 'settled':
      return `${naming.step(act.stepKey)}${act.item ? ` (${naming.thing(act.item)})` : ''}: ${words.note ?? ''}`;
    case 'photo_lost':
      return `${PHOTO_LOST[act.why]}${said(words.note, '. ')}`;
    case 'signed_off':
      return `on site ${naming.clock(act.from)} to ${naming.clock(act.until)}`;
  }
}
