// What the pair does on site besides the steps, and what keeps a record open.
import { HAZARD_PLACES } from '@backsight/domain/shared/places';
import { z } from 'zod';
import {
  ACT_WORDS,
  ANIMALS,
  CHANGES,
  DAMAGES,
  DANGERS,
  ENTERED_PLACES,
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
} from '@backsight/domain/sitework/act';
import { id, instant, prose } from '../route.ts';

const keysOf = <K extends string>(list: Record<K, unknown>) => z.enum(Object.keys(list) as [K, ...K[]]);
const stepKey = z.string().max(100);
const act = <D extends string, S extends z.ZodRawShape>(name: D, shape: S) => z.strictObject({ do: z.literal(name), ...shape });
const many = <T extends z.ZodType>(one: T, most: number) => z.array(one).max(most).readonly();

export const siteAct = z.discriminatedUnion('do', [
  act('arrival', {
    there: keysOf(WHO_IS_THERE),
    animals: keysOf(ANIMALS),
    recording: keysOf(RECORDING),
    inView: many(keysOf(IN_VIEW), 3),
  }),
  act('conditions', {
    outdoorF: z.number().min(-80).max(140),
    rain48: keysOf(RAIN),
    snow: keysOf(SNOW),
    water: keysOf(UTILITY),
    gas: keysOf(UTILITY),
    electricity: keysOf(UTILITY),
    house: keysOf(HOUSE),
  }),
  act('loads', { asked: z.enum(['occupant', 'looked']), loads: many(keysOf(LOADS), 6) }),
  act('divide', { by: z.enum(['system', 'minutes']), parts: many(z.strictObject({ system: z.string().max(60), person: id }), 40) }),
  act('outlet', { device: id, outlet: id, reached: z.boolean(), runs: z.boolean().nullable() }),
  act('trip', { device: id, by: keysOf(TRIPPED_BY), result: keysOf(TRIPPED), dead: many(id, 100) }),
  act('reset', { device: id, resets: z.boolean() }),
  act('power_back', { device: id, live: many(id, 100), dead: many(id, 100) }),
  act('changed', { thing: keysOf(CHANGES) }),
  act('put_back', { of: id }),
  act('told', { of: many(id, 100) }),
  act('hazard_look', { place: keysOf(HAZARD_PLACES), item: id.nullable(), stops: many(z.string().max(40), 20) }),
  act('went_in', { place: z.enum(ENTERED_PLACES), backBy: instant }),
  act('came_out', { of: id }),
  act('danger', { what: keysOf(DANGERS), house: z.enum(['told', 'nobody_there']), called: z.boolean() }),
  act('damage', { what: keysOf(DAMAGES), safety: z.boolean() }),
  act('settled', { stepKey, item: id.nullable() }),
  act('photo_lost', { photo: id, why: keysOf(PHOTO_LOST) }),
  act('signed_off', { from: instant, until: instant }),
]);
export const actWords = z.partialRecord(z.enum(ACT_WORDS), prose(2000));
const inches = z.number().min(0).max(600).optional();
export const measures = z.strictObject({ headroomIn: inches, widthIn: inches, heightIn: inches });

/** Of an entry that is an act: its outcome is "done", without evidence, note or reason. */
export const actFields = { act: siteAct.optional(), words: actWords.optional(), measures: measures.nullable().optional() };

export const knownAct = z.strictObject({ id, act: siteAct, words: actWords, by: id, writtenBy: id, at: instant, order: z.string() });

/** How the answers of a partner check compare; one_look: the visit ended before the other could look. */
export const pairResult = z.enum(['agree', 'differ', 'not_compared', 'one_look']);

export const missingToSeal = z.array(
  z.strictObject({
    kind: z.enum(['entry', 'member', 'ending', 'sign_off', 'not_restored', 'inside', 'photo', 'disagreement']),
    stepKey: z.string().nullable(),
    itemId: id.nullable(),
    person: id.nullable(),
    ref: id.nullable(),
  }),
);
