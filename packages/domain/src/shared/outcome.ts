// The answer of every decision: what changes, or which named rule refused it.
import type { RefusalCode } from '../refusals.ts';

/** Facts that a refusal names (people, times, amounts), for its sentence and for the screen; never secrets. */
export type About = Record<string, string | number | boolean | null | readonly string[]>;

/** A rule said no. `field` is the path of the input at fault (`facts.yearBuilt`), when one input is; `also`: other inputs that are at fault too. */
export type Refusal = { ok: false; code: RefusalCode; about: About; field?: string; also?: readonly Refusal[] };

/** Something the user should see although the act went through; stored with the audit row. */
export type Warning = { code: string; text: string };

/** Result of a pure decision. Broken invariants throw; refusals are values. */
export type Outcome<T> = { ok: true; value: T; warnings: Warning[] } | Refusal;

/** Accepts, with optional warnings. */
export const accept = <T>(value: T, warnings: Warning[] = []): Outcome<T> => ({ ok: true, value, warnings });

/** Refuses under a code of the catalogue. */
export const refuse = (code: RefusalCode, about: About = {}, field?: string): Refusal =>
  field === undefined ? { ok: false, code, about } : { ok: false, code, about, field };
