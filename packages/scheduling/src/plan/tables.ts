// The day as numbers: people, stretches and visits by position, with everything that is asked often looked up once.
import { piecesOf } from '../kit.ts';
import { mayGoFirst, missingKeys, nobodyGoesFirst, pairRuleBroken, personRules } from '../rules.ts';
import type { Travel } from '../travel.ts';
import { daysTogether, pairKey, rotationCost } from './cost.ts';
import { dayAndMinute } from './days.ts';
import { membersOf } from './members.ts';
import type { Member } from './members.ts';
import type { PlanInput, PlanPerson, PlanVisit } from './model.ts';
import { isFixed, leftOutCost, startsOf } from './starts.ts';
import { kitRoom } from './kitRoom.ts';
import { NOTHING_STRICT } from './stricter.ts';
import type { Strict } from './stricter.ts';
import { WritingGate } from './writingGate.ts';

export type Tables = {
  input: PlanInput;
  /** Sorted by id. */
  people: PlanPerson[];
  members: Member[];
  /** Sorted by id. */
  visits: PlanVisit[];
  starts: number[][];
  /** Cost of leaving a visit out. */
  skip: Float64Array;
  /** Minutes between visits, at a * visits + b. */
  drive: Int16Array;
  /** Minutes from where the stretch begins to the visit, and from there to where it ends, at member * visits + visit. */
  out: Int16Array;
  back: Int16Array;
  /** Whether no rule about the person alone forbids it, and what it costs that he was not announced for it; same positions. */
  allowed: Uint8Array;
  strange: Float64Array;
  /** Keys that a crew must hold between them, as bits: needed by the visit, held by the member. */
  needs: Int32Array;
  holds: Int32Array;
  leads: Uint8Array;
  /** Whether two members may form a pair and what repeating it costs, at a * members + b; whether one may go alone. */
  mayPair: Uint8Array;
  rotation: Float64Array;
  mayGoAlone: Uint8Array;
  /** Pools of kit as bits, for a visit those of whoever may come; which are worn, and which of these a member's size is. */
  kitOf: Int32Array;
  worn: number;
  wears: Int32Array;
  /** Number of pools, and how many can be given each: day by day, pool by pool. */
  kinds: number;
  kitLimit: number[];
  /** Null when no reports are to be written. */
  writing: WritingGate | null;
  /** People of a visit that keeps its crew (the second -1 when alone); null when the crew is open. */
  fixedCrew: ([number, number] | null)[];
};

const MOST_KEYS = 31;

function bitsOf(keys: readonly string[], lists: readonly (readonly string[])[]): Int32Array {
  return Int32Array.from(lists, (list) => list.reduce((bits, key) => bits | (1 << keys.indexOf(key)), 0));
}

function keysOf(lists: readonly (readonly string[])[], what: string): string[] {
  const keys = [...new Set(lists.flat())].sort();
  if (keys.length > MOST_KEYS) throw new RangeError(`More than ${MOST_KEYS} ${what} in one day`);
  return keys;
}

/** Pairing rules and the wish not to repeat a pair, for every two members. */
function pairs(input: PlanInput, people: readonly PlanPerson[], members: readonly Member[]) {
  const n = members.length;
  const mayPair = new Uint8Array(n * n);
  const rotation = new Float64Array(n * n);
  const together = daysTogether(input);
  members.forEach((a, i) => {
    members.forEach((b, j) => {
      const [one, two] = [people[a.person]!, people[b.person]!];
      if (a.person === b.person || pairRuleBroken(input.pairRules, one.id, two.id) || nobodyGoesFirst(one, two)) return;
      mayPair[i * n + j] = 1;
      rotation[i * n + j] = rotationCost(input.weights, dayAndMinute(input.day, a.from).day, together.get(pairKey(one.id, two.id)) ?? []);
    });
  });
  const mayGoAlone = Uint8Array.from(members, (one) => (pairRuleBroken(input.pairRules, people[one.person]!.id, null) ? 0 : 1));
  return { mayPair, rotation, mayGoAlone };
}

function perMember(
  input: PlanInput,
  people: readonly PlanPerson[],
  members: readonly Member[],
  visits: readonly PlanVisit[],
  travel: Travel,
) {
  const size = members.length * visits.length;
  const [out, back] = [new Int16Array(size), new Int16Array(size)];
  const allowed = new Uint8Array(size);
  const strange = new Float64Array(size);
  members.forEach((member, i) => {
    const person = people[member.person]!;
    const { day } = dayAndMinute(input.day, member.from);
    visits.forEach((visit, j) => {
      const at = i * visits.length + j;
      const known = visit.current?.first === person.id || visit.current?.second === person.id;
      out[at] = travel.minutes(member.origin, visit.place);
      back[at] = travel.minutes(visit.place, member.destination);
      const fit = visit.underWay || personRules.every((rule) => !rule.breaks(person, visit, day));
      allowed[at] = fit && (!isFixed(visit) || known) && (visit.underWay || !member.began) ? 1 : 0;
      strange[at] = visit.announced && !known ? input.weights.unannounced : 0;
    });
  });
  return { out, back, allowed, strange };
}

function driving(visits: readonly PlanVisit[], travel: Travel): Int16Array {
  const drive = new Int16Array(visits.length * visits.length);
  visits.forEach((from, a) => visits.forEach((to, b) => (drive[a * visits.length + b] = travel.minutes(from.place, to.place))));
  return drive;
}

/** For each visit its pools of kit; of what is worn, the sizes of everybody. */
const poolsOf = (input: PlanInput, visits: readonly PlanVisit[]): string[][] =>
  visits.map(({ kit }) => [...new Set(input.people.flatMap(({ id }) => piecesOf(input, kit, [id]).map(({ pool }) => pool)))]);

/** Whose size each pool of what is worn is; what is not worn belongs to the crew. */
function wornBits(input: PlanInput, pools: readonly string[], people: readonly PlanPerson[], visits: readonly PlanVisit[]) {
  const worn = new Set(input.kit.flatMap((pool) => pool.worn ?? []));
  const kinds = [...new Set(visits.flatMap(({ kit }) => kit))].filter((kind) => worn.has(kind));
  const own = people.map(({ id }) => piecesOf(input, kinds, [id]).map(({ pool }) => pool));
  const wears = bitsOf(pools, own);
  return { wears, worn: wears.reduce((all, bits) => all | bits, 0) };
}

const byId = <T extends { id: string }>(list: readonly T[]): T[] => [...list].sort((a, b) => (a.id < b.id ? -1 : 1));

export type Aside = {
  /** Pieces (by day|kind) that are out with crews that the search does not touch. */
  taken: ReadonlyMap<string, number>;
  strict: Strict;
};

/**
 * Lays the day out for the search. Throws RangeError for more than 31 kinds of kit or of qualifications needed by crews in one day.
 */
export function tablesOf(
  input: PlanInput,
  travel: Travel,
  { taken, strict }: Aside = { taken: new Map(), strict: NOTHING_STRICT },
): Tables {
  const people = byId(input.people);
  const visits = byId(input.visits);
  const members = membersOf(input, people, travel);
  const position = new Map(people.map((person, at) => [person.id, at]));
  const qualifications = keysOf(
    visits.map((visit) => visit.needAny),
    'qualifications',
  );
  const needed = poolsOf(input, visits);
  const kinds = keysOf(needed, 'kinds of kit');
  const held = members.map(({ person, from }) => {
    const missing = missingKeys(people[person]!, qualifications, dayAndMinute(input.day, from).day);
    return qualifications.filter((key) => !missing.includes(key));
  });
  return {
    input,
    people,
    members,
    visits,
    starts: visits.map((visit) => startsOf(input, visit)),
    skip: Float64Array.from(visits, (visit) => leftOutCost(input.weights, visit)),
    drive: driving(visits, travel),
    ...perMember(input, people, members, visits, travel),
    needs: bitsOf(
      qualifications,
      visits.map((visit) => (visit.underWay ? [] : visit.needAny)),
    ),
    holds: bitsOf(qualifications, held),
    leads: Uint8Array.from(members, (one) => (mayGoFirst(people[one.person]!) ? 1 : 0)),
    ...pairs(input, people, members),
    kitOf: bitsOf(kinds, needed),
    ...wornBits(
      input,
      kinds,
      members.map(({ person }) => people[person]!),
      visits,
    ),
    kinds: kinds.length,
    kitLimit: kitRoom(input, kinds, { people, members }, { taken, strict }),
    writing: WritingGate.of(input, people, members, travel, strict.writers),
    fixedCrew: visits.map((visit) => {
      if (!isFixed(visit)) return null;
      const { first, second } = visit.current!;
      return [position.get(first) ?? -2, second === null ? -1 : (position.get(second) ?? -2)];
    }),
  };
}
