// What the pair does on site besides the steps: added to the record as entries like the others, so that it works without signal.
import type { HazardPlace } from '../shared/places.ts';

/** Loads that are asked about before any power is interrupted. */
export const LOADS = {
  medical: 'medical device',
  freezer: 'freezer or second refrigerator',
  sump: 'sump pump',
  aquarium: 'aquarium',
  alarm: 'alarm panel',
  computer: 'computer',
} as const;
export type Load = keyof typeof LOADS;

/** Things that we change and put back. Breakers, shut-off valves and pilots found off are none of them: they stay off and are told. */
export const CHANGES = {
  thermostat: 'thermostat',
  valve: 'faucet or valve that we opened or closed',
  light: 'light or fan',
  gate: 'gate, door or window',
  hatch: 'hatch or cover',
  irrigation: 'lawn sprinkler controller',
  appliance: 'appliance',
  other: 'something else',
} as const;
export type Change = keyof typeof CHANGES;

/** Places that somebody goes into or onto, and comes back from. */
export const ENTERED_PLACES = ['crawl_space', 'attic', 'roof'] as const satisfies readonly HazardPlace[];
export type EnteredPlace = (typeof ENTERED_PLACES)[number];

export const DANGERS = {
  gas: 'gas smell',
  carbon_monoxide: 'carbon monoxide, 70 ppm or more',
  energized_metal: 'metal that is energized',
  collapse: 'something may collapse',
  other: 'another danger to people',
} as const;
export type Danger = keyof typeof DANGERS;

export const IN_VIEW = { weapons: 'weapons', medicines: 'medicines', papers: 'papers or valuables' } as const;
export type InView = keyof typeof IN_VIEW;
export const WHO_IS_THERE = {
  adult: 'an adult is present',
  opener: 'opened by an agent or key holder who stays',
  vacant: 'vacant, way in as agreed',
} as const;
export const ANIMALS = { none: 'none', secured: 'secured by the occupant' } as const;
export const RECORDING = { none: 'none running that anybody knows of', running: 'running', not_said: 'nobody could say' } as const;
export const RAIN = { none: 'none', some: 'some', heavy: 'heavy', not_known: 'not known' } as const;
export const SNOW = { none: 'none', patches: 'in patches', covered: 'covered' } as const;
export const UTILITY = { on: 'on', off: 'off', none: 'none here' } as const;
export const HOUSE = { occupied: 'occupied', vacant: 'vacant' } as const;
type Utility = keyof typeof UTILITY;

/** `no_ground`: no equipment ground, where a plug-in tester says nothing and the device's own button is pressed. */
export const TRIPPED_BY = { button: 'its own button', tester: 'tester', no_ground: 'its own button: no equipment ground here' } as const;
export const TRIPPED = { trips: 'trips', no_trip: 'does not trip', dead_as_found: 'dead as found' } as const;
/** Why a photo that an entry names will never come. */
export const PHOTO_LOST = {
  phone_gone: 'the phone is lost or broken',
  deleted: 'deleted on the phone by mistake',
  unreadable: 'the file cannot be read',
  other: 'another reason, in the note',
} as const;
export const DAMAGES = { damage: 'something was damaged', injury: 'somebody was hurt' } as const;

/** Codes, ids, counts and instants only; what is said in words stands beside it (see `ActWords`). */
export type SiteAct =
  | {
      do: 'arrival';
      there: keyof typeof WHO_IS_THERE;
      animals: keyof typeof ANIMALS;
      recording: keyof typeof RECORDING;
      inView: readonly InView[];
    }
  | {
      do: 'conditions';
      /** Degrees Fahrenheit. */ outdoorF: number;
      rain48: keyof typeof RAIN;
      snow: keyof typeof SNOW;
      water: Utility;
      gas: Utility;
      electricity: Utility;
      house: keyof typeof HOUSE;
    }
  /** Who was asked what must not lose power: the occupant, or nobody, in a house that was looked through. */
  | { do: 'loads'; asked: 'occupant' | 'looked'; loads: readonly Load[] }
  | { do: 'divide'; by: 'system' | 'minutes'; parts: readonly { system: string; person: string }[] }
  /** A receptacle that is live before the test, or one that cannot be unplugged or reached, with what its appliance shows. */
  | { do: 'outlet'; device: string; outlet: string; reached: boolean; runs: boolean | null }
  | { do: 'trip'; device: string; by: keyof typeof TRIPPED_BY; result: keyof typeof TRIPPED; dead: readonly string[] }
  | { do: 'reset'; device: string; resets: boolean }
  /** Receptacles looked at after the reset; of one that was not reached, whether its appliance runs again. */
  | { do: 'power_back'; device: string; live: readonly string[]; dead: readonly string[] }
  | { do: 'changed'; thing: Change }
  | { do: 'put_back'; of: string }
  /** Client and office were told on the spot of what is not as it was. */
  | { do: 'told'; of: readonly string[] }
  | { do: 'hazard_look'; place: HazardPlace; item: string | null; stops: readonly string[] }
  | { do: 'went_in'; place: EnteredPlace; backBy: string }
  | { do: 'came_out'; of: string }
  | { do: 'danger'; what: Danger; house: 'told' | 'nobody_there'; called: boolean }
  | { do: 'damage'; what: keyof typeof DAMAGES; safety: boolean }
  /** A partner check in which the answers differ, settled on site. */
  | { do: 'settled'; stepKey: string; item: string | null }
  /** A photo that was taken and will never come; the seal waits for every other one. */
  | { do: 'photo_lost'; photo: string; why: keyof typeof PHOTO_LOST }
  /** One's own times on site, and that the record is as one saw it. */
  | { do: 'signed_off'; from: string; until: string };

export type ActKind = SiteAct['do'];

/** Words of an act, kept apart from it: where, who was told, how it stood, why. */
export const ACT_WORDS = ['where', 'was', 'appliance', 'client', 'office', 'house', 'called', 'note'] as const;
export type ActWords = Partial<Record<(typeof ACT_WORDS)[number], string>>;

/** An act as it stands in a record. `order` sorts as the entries' does. */
export type KnownAct = { id: string; act: SiteAct; words: ActWords; by: string; writtenBy: string; at: string; order: string };

/** Under which key an act stands among the entries; no step's key holds a colon. */
export const actKey = (kind: ActKind): string => `site:${kind}`;

/** What each kind is called on screens and papers. */
export const ACT_NAMES: Record<ActKind, string> = {
  arrival: 'Arrival',
  conditions: 'Conditions of the day',
  loads: 'What must not lose power',
  divide: 'Who takes what',
  outlet: 'Receptacle before the test',
  trip: 'Ground-fault device tripped',
  reset: 'Ground-fault device reset',
  power_back: 'Power after the reset',
  changed: 'Changed by us',
  put_back: 'Put back',
  told: 'Client and office told',
  hazard_look: 'Looked at for danger',
  went_in: 'Went in',
  came_out: 'Came out',
  danger: 'Danger to people',
  damage: 'Damage or injury',
  settled: 'Partner check settled',
  photo_lost: 'Photo that will not come',
  signed_off: 'Signed off',
};
