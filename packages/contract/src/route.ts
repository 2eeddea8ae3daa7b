// What a route is: its schemas, who may call it, and whether it writes. Server, typed calls and OpenAPI all come from this.
import { z } from 'zod';
import type { Role } from '@backsight/domain/people/roles';
import './plainWords.ts';

/** anyone = no sign-in; signed_in = any person of the firm; else one of the roles. */
export type Who = 'anyone' | 'signed_in' | readonly Role[];

/**
 * What the first id of a path names, where inspectors are let through: a thing of a job, which only those get who go or went there, and the desk
 * ('job' and so on); somebody of the firm or what is kept about them ('person'), what somebody was asked about ('asked'), one's own ('own'),
 * or what everybody of the firm sees ('everybody'). The last four are decided by the use case.
 */
export type Named = 'job' | 'visit' | 'record' | 'report' | 'agreement' | 'signer' | 'test_item' | 'person' | 'asked' | 'own' | 'everybody';

export type Route = {
  method: 'GET' | 'POST' | 'PATCH' | 'PUT' | 'DELETE';
  /** Path with :names, beginning with /api/. */
  path: string;
  summary: string;
  area: string;
  who: Who;
  /** Said by each route that lets inspectors through and has a name in its path. */
  of?: Named;
  params?: z.ZodObject;
  query?: z.ZodObject;
  body?: z.ZodType;
  reply: z.ZodType;
  /** Needs an Idempotency-Key header; sending it twice does it once. */
  creates?: boolean;
  /** Needs an If-Match header with the version that was seen. */
  edits?: boolean;
  /** May be called by somebody who has still to set up the second factor. */
  beforeFactor?: boolean;
  /** Largest body in bytes, where it may be more than the usual 2 MB. */
  bodyLimit?: number;
  /** Requests that one address may make in a minute, where it is fewer than usual. */
  requestsPerMinute?: number;
  /** Its reply may come with 503: what it tells is that the service cannot be asked. */
  unwell?: boolean;
};

/** Keeps the exact types of a route. */
export const route = <const R extends Route>(r: R): R => r;

type In<S> = S extends z.ZodType ? z.input<S> : undefined;
type Out<S> = S extends z.ZodType ? z.output<S> : undefined;
/** What a caller sends and gets. */
export type ParamsOf<R extends Route> = In<R['params']>;
export type QueryOf<R extends Route> = In<R['query']>;
export type BodyOf<R extends Route> = In<R['body']>;
export type ReplyOf<R extends Route> = Out<R['reply']>;

export const id = z.uuid();
export const day = z.iso.date();
export const instant = z.iso.datetime({ offset: true });
/** Working hours are counted in minutes: a time that somebody plans has no seconds. */
export const wholeMinute = instant.refine((at) => Date.parse(at) % 60_000 === 0, 'Give a whole minute, without seconds.');
export const cents = z.int().min(-2_000_000_000).max(2_000_000_000);
/** A line of text that a person types: no control characters, not only blanks. */
export const line = (max: number) =>
  z
    .string()
    .trim()
    .min(1)
    .max(max)
    .regex(/^[^\u0000-\u001f]*$/, 'Write this in one line.');
/** Text of several lines. */
export const prose = (max: number) =>
  z
    .string()
    .trim()
    .min(1)
    .max(max)
    .regex(/^[^\u0000]*$/, 'There is a character in it that cannot be kept: type it anew.');
/** A number that somebody is called at: seven digits at least, whatever stands between them. */
export const phone = line(40).refine((typed) => typed.replace(/\D/g, '').length >= 7, 'Give the whole number, like 920-555-0100.');
export const idParams = z.strictObject({ id });
export const made = z.strictObject({ id });
/** A page of a list: `next` is the cursor of the following page, null at the end. */
export const page = <T extends z.ZodType>(item: T) => z.strictObject({ items: z.array(item), next: z.string().nullable() });
/** Warnings that came with an act that went through. */
export const warnings = z.array(z.strictObject({ code: z.string(), text: z.string() }));
