// Makes bad requests: values that fit no schema, or nearly fit one, from a seed so that a failure can be repeated.
import fc from 'fast-check';
import type { Route } from '@backsight/contract/route';

export type BadRequest = { path: string; headers: Record<string, string>; payload?: string };

const ID = '00000000-0000-7000-8000-000000000010';
const nasty = fc.constantFrom<unknown>(
  '',
  ' ',
  '\u0000',
  'null',
  "'; DROP TABLE firm; --",
  '${7*7}',
  '../../etc/passwd',
  '<script>alert(1)</script>',
  '\ud800',
  'é'.repeat(500),
  'x'.repeat(20_000),
  '2026-02-30',
  '0000-00-00',
  '9999-12-31T23:59:60Z',
  '+275760-09-13',
  -1,
  0,
  0.5,
  1e308,
  -1e308,
  Number.MAX_SAFE_INTEGER,
  2_147_483_648,
  -2_147_483_649,
  true,
  false,
  null,
  [],
  {},
  [[[[]]]],
  { __proto__: null },
  ID,
  '99999999-0000-7000-8000-000000000010',
  'not-a-uuid',
  '2026-05-12',
  '2026-05-12T15:00:00Z',
);
const anything = fc.oneof(
  { weight: 3, arbitrary: nasty },
  { weight: 1, arbitrary: fc.jsonValue({ maxDepth: 3 }) as fc.Arbitrary<unknown> },
);

/** The names that a schema asks for, so that bad values land where good ones belong. */
const namesOf = (schema: unknown): string[] => Object.keys((schema as { shape?: Record<string, unknown> } | undefined)?.shape ?? {});

const objectOf = (names: string[]): fc.Arbitrary<Record<string, unknown>> =>
  fc
    .record(Object.fromEntries(names.map((name) => [name, anything])), { requiredKeys: [] })
    .chain((known) =>
      fc
        .dictionary(fc.constantFrom('__proto__', 'constructor', 'extra', 'id', ''), anything, { maxKeys: 1 })
        .map((extra) => ({ ...known, ...extra })),
    );

const segment = fc.constantFrom(
  ID,
  ID,
  'x',
  '%00',
  '%F0%9F',
  '..%2F..',
  "1'--",
  '0',
  'a'.repeat(190),
  '00000000-0000-0000-0000-000000000000',
);
const headerValue = fc.constantFrom('', '""', '"-1"', '"99999999999"', '*', 'W/"1"', '"1"', 'x'.repeat(300), 'short', 'a-key-that-is-fine');
const contentType = fc.constantFrom(
  'application/json',
  'application/json',
  'application/json',
  'text/plain',
  'application/xml',
  'application/x-www-form-urlencoded',
  'multipart/form-data',
  'application/json; charset=utf-7',
);
const brokenText = fc.constantFrom(
  '{',
  '[1,',
  '',
  'null',
  '"text"',
  '123',
  '\u0000',
  '{"a":1}}',
  '{"id":"x","id":"y"}',
  '{"id":1e999}',
  '\ufeff{}',
  '{"__proto__":{"x":1}}',
  `${'['.repeat(3000)}${']'.repeat(3000)}`,
);

/** Bad requests to one route. Creates carry a fresh key, so that they reach the schema and the rules. */
export function badRequest(route: Route, key: () => string): fc.Arbitrary<BadRequest> {
  const names = [...route.path.matchAll(/:\w+/g)];
  const query = objectOf(namesOf(route.query)).map((values) =>
    new URLSearchParams(
      Object.entries(values).map(([name, value]) => [
        name,
        String(typeof value === 'object' ? JSON.stringify(value) : value).slice(0, 400),
      ]),
    ).toString(),
  );
  const body = fc.oneof(
    { weight: 6, arbitrary: objectOf(namesOf(route.body)).map((value) => JSON.stringify(value)) },
    { weight: 1, arbitrary: brokenText },
    { weight: 1, arbitrary: anything.map((value) => JSON.stringify(value)) },
  );
  return fc
    .record({
      segments: fc.tuple(...names.map(() => segment)),
      query,
      type: contentType,
      body,
      key: fc.oneof({ weight: 5, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: headerValue }),
      version: fc.oneof({ weight: 3, arbitrary: fc.constant('"1"') }, { weight: 1, arbitrary: headerValue }),
    })
    .map((r) => {
      let at = 0;
      const path = route.path.replace(/:\w+/g, () => String(r.segments[at++])) + (r.query ? `?${r.query}` : '');
      const writes = route.method !== 'GET' && route.method !== 'DELETE';
      return {
        path,
        headers: {
          ...(writes ? { 'content-type': r.type } : {}),
          ...(route.creates ? { 'idempotency-key': r.key ?? key() } : {}),
          ...(route.edits ? { 'if-match': r.version } : {}),
        },
        ...(writes ? { payload: r.body } : {}),
      };
    });
}
