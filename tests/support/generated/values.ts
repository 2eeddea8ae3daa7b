// Values that fit a JSON Schema of the API's description, drawn from a seed, with ids of what there is.
import { randomUUID } from 'node:crypto';

export type Schema = Record<string, any>;
export type Draw = { below: (n: number) => number; one: <T>(from: readonly T[]) => T; chance: (percent: number) => boolean };
/** Ids by the word that stands before them in an address, or by the name of a field without its "Id". */
export type Ids = Record<string, string[]>;

/** Park and Miller's minimal generator: the same draws for the same seed. */
export function drawFrom(seed: number): Draw {
  let at = (Math.abs(seed) % 2_147_483_646) + 1;
  const below = (n: number): number => (at = (at * 48_271) % 2_147_483_647) % n;
  return { below, one: (from) => from[below(from.length)]!, chance: (percent) => below(100) < percent };
}

const NAMED: Record<string, readonly string[]> = {
  phone: ['920-555-0140'],
  zip: ['54901'],
  town: ['Birchmere'],
  month: ['2026-04'],
  quarter: ['2026-Q1'],
  services: ['inspection'],
  state: ['US-WI', 'booked', 'settled', 'asked'],
  zone: ['America/Chicago'],
};
/** Tried against the pattern of a field, the likeliest first. */
const TEXTS = [
  'Said on the phone',
  '920-555-0140',
  '2026-05',
  '2026-Q2',
  'inspection',
  '54901',
  'US-WI',
  '/jobs',
  '?q=x',
  '0'.repeat(64),
  '12',
  'a',
];
const DAYS = ['2026-05-12', '2026-05-13', '2026-05-20', '2026-04-30', '2026-06-01'];
const INSTANTS = ['2026-05-12T14:00:00Z', '2026-05-13T14:45:00Z', '2026-05-12T15:00:00Z', '2026-05-20T09:00:00-05:00'];

export function fitting(document: Schema, ids: Ids, draw: Draw) {
  const named = (field: string): string[] => ids[field.replace(/Id$/, '')] ?? ids[`${field.replace(/Id$/, '')}s`] ?? [];
  const text = (schema: Schema, field: string): string => {
    if (schema.format === 'uuid')
      return field === 'id' || draw.chance(10)
        ? randomUUID()
        : draw.one(named(field).length ? named(field) : [...Object.values(ids).flat(), randomUUID()]);
    if (schema.format === 'date') return draw.one(DAYS);
    if (schema.format === 'date-time') return draw.one(INSTANTS);
    if (schema.format === 'email') return `somebody${draw.below(1000)}@test.example`;
    const pattern = schema.pattern ? new RegExp(schema.pattern, 'u') : /^/;
    const fits = [...(NAMED[field] ?? []), ...(ids[field] ?? []), ...TEXTS].filter(
      (one) => pattern.test(one) && one.length >= (schema.minLength ?? 0) && one.length <= (schema.maxLength ?? 1e9),
    );
    return (
      NAMED[field]?.find((one) => fits.includes(one)) ?? (fits.length ? draw.one(fits.slice(0, 3)) : 'x'.repeat(schema.minLength ?? 3))
    );
  };
  const number = (schema: Schema): number => {
    const low = Math.max(schema.minimum ?? (schema.exclusiveMinimum ?? 0) + 1, -1000);
    const high = Math.min(schema.maximum ?? low + 100, schema.exclusiveMaximum ? schema.exclusiveMaximum - 1 : low + 100, low + 100);
    return low + draw.below(Math.max(1, Math.floor(high - low)));
  };
  const of = (schema: Schema, field = '', depth = 0): unknown => {
    if (schema.$ref)
      return of(
        (schema.$ref as string)
          .split('/')
          .slice(1)
          .reduce((at, key) => at[key], document),
        field,
        depth,
      );
    if ('const' in schema) return schema.const;
    if (schema.enum) return draw.one(schema.enum);
    const choices = (schema.anyOf ?? schema.oneOf) as Schema[] | undefined;
    if (choices)
      return of(
        draw.one(draw.chance(80) && choices.some((c) => c.type !== 'null') ? choices.filter((c) => c.type !== 'null') : choices),
        field,
        depth,
      );
    if (schema.allOf) return Object.assign({}, ...(schema.allOf as Schema[]).map((part) => of(part, field, depth)));
    const type = Array.isArray(schema.type) ? draw.one(schema.type as string[]) : schema.type;
    if (type === 'object') return objectOf(schema, depth);
    if (type === 'array') return listOf(schema, field, depth);
    if (type === 'string') return text(schema, field);
    if (type === 'integer' || type === 'number') return number(schema);
    return type === 'boolean' ? draw.chance(50) : null;
  };
  const objectOf = (schema: Schema, depth: number): unknown =>
    Object.fromEntries(
      Object.entries((schema.properties ?? {}) as Record<string, Schema>)
        .filter(([name]) => (schema.required ?? []).includes(name) || draw.chance(depth > 3 ? 0 : 35))
        .map(([name, part]) => [name, of(part, name, depth + 1)]),
    );
  const listOf = (schema: Schema, field: string, depth: number): unknown => {
    if (schema.prefixItems) return (schema.prefixItems as Schema[]).map((part) => of(part, field, depth + 1));
    const many = (schema.minItems ?? 0) + draw.below(Math.min(2, (schema.maxItems ?? 9) - (schema.minItems ?? 0)) + 1);
    return Array.from({ length: many }, () => of(schema.items ?? {}, field.replace(/s$/, ''), depth + 1));
  };
  return of;
}
