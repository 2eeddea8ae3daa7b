// Spoils a request that would fit, in one of the ways in which requests go wrong; each way has its name.
import type { Draw } from './values.ts';

export type Sent = { path: string; query: string; headers: Record<string, string>; body?: unknown; raw?: string };

/** Unpaired surrogates, text from right to left and its overrides, combining and composed letters, characters without width, a zero. */
const TEXTS = [
  '\ud800',
  'a\udfffb',
  '\u202eelddaS',
  'שלום עולם',
  'e\u0301'.repeat(40),
  'é',
  'e\u0301',
  'a\u200bb\u200d',
  '\ufeff',
  'Z\u0300\u0301\u0302\u0303',
  '👩‍👩‍👧',
  '\u0000',
  '\u2028',
  'ﷺ',
  'İi',
  '＜script＞',
];
const OTHER_TYPES = [null, true, 'text', 5, 0.5, [], {}, [[]], '5'];
const EDGES = [
  0,
  -1,
  1,
  2_147_483_647,
  2_147_483_648,
  -2_147_483_649,
  Number.MAX_SAFE_INTEGER,
  1e308,
  -0,
  '',
  ' ',
  '0001-01-01',
  '9999-12-31',
  '2026-02-29',
  '2027-03-14T02:30:00-06:00',
  '1969-12-31T23:59:59Z',
  '2026-06-30T23:59:60Z',
];
const NO_IDS = [
  '00000000-0000-0000-0000-000000000000',
  'ffffffff-ffff-ffff-ffff-ffffffffffff',
  'x',
  '1',
  '-1',
  '%20',
  '..%2f..%2fetc',
  "1'--",
  'F'.repeat(190),
  '00000000-0000-7000-8000-00000000001',
];
const MEDIA = [
  'text/plain',
  'application/xml',
  'application/x-www-form-urlencoded',
  'multipart/form-data',
  'application/json; charset=utf-7',
  'application/json5',
  '',
  'application/json, text/html',
  'APPLICATION/JSON',
];
const ODD_QUERIES = [
  '%00',
  '%F0%9F',
  '%',
  'q=%zz',
  'limit=1&limit=2',
  'limit[]=1',
  'a=b=c',
  '__proto__[x]=1',
  'day=2026-05-12%2B',
  'q=%c0%ae',
  `q=${'x'.repeat(4000)}`,
  '&&&=',
  'limit=1e2',
  'limit=%EF%BC%91',
];
const COOKIES = [
  'backsight_session=',
  'backsight_session=x',
  `backsight_session=${'A'.repeat(5000)}`,
  'backsight_session="a',
  'backsight_session=%00',
  '=;;;',
  'backsight_session=a; backsight_session=b',
  '__proto__=1',
  'backsight_session=é',
];
const HEADERS: [string, string[]][] = [
  ['if-match', ['', '"-1"', '"99999999999"', '*', 'W/"1"', '1e3', '"1", "2"']],
  ['idempotency-key', ['', 'short', 'x'.repeat(101), 'with blank here', 'a-key-that-came-before']],
];

type Way = (sent: Sent, draw: Draw, others: readonly string[]) => Sent;

/** Sets one place of a body, chosen by chance, to what `make` says of it; a body without places becomes it. */
function atOnePlace(body: unknown, draw: Draw, make: () => unknown): unknown {
  if (typeof body !== 'object' || body === null || Object.keys(body).length === 0) return make();
  const key = draw.one(Object.keys(body));
  const within = (body as Record<string, unknown>)[key];
  const deeper = typeof within === 'object' && within !== null && Object.keys(within).length > 0 && draw.chance(60);
  const made = deeper ? atOnePlace(within, draw, make) : make();
  return Array.isArray(body) ? body.map((one, at) => (String(at) === key ? made : one)) : { ...body, [key]: made };
}
const changed =
  (values: readonly unknown[]): Way =>
  (sent, draw) =>
    sent.body === undefined
      ? {
          ...sent,
          query: `${sent.query}${sent.query ? '&' : ''}${draw.one(['q', 'limit', 'day', 'from', 'before'])}=${encodeURIComponent(String(draw.one(values)).replace(/\p{Surrogate}/gu, '\ufffd'))}`,
        }
      : { ...sent, body: atOnePlace(sent.body, draw, () => draw.one(values)) };
const fields = (body: unknown): body is Record<string, unknown> => typeof body === 'object' && body !== null && !Array.isArray(body);
const nested = (depth: number): string => `${'{"a":'.repeat(depth)}1${'}'.repeat(depth)}`;

export const WAYS: Record<string, Way> = {
  'wrong type': changed(OTHER_TYPES),
  edge: changed(EDGES),
  unicode: changed(TEXTS),
  huge: (sent, draw) =>
    draw.chance(50)
      ? changed(['x'.repeat(100_000), Array.from({ length: 5_000 }, () => 1), '9'.repeat(400)])(sent, draw, [])
      : { ...sent, raw: draw.one([nested(2_000), `[${'1,'.repeat(200_000)}1]`]) },
  'duplicated key': (sent) => ({
    ...sent,
    raw: fields(sent.body)
      ? JSON.stringify(sent.body).replace(/^\{(.*)\}$/s, (_, inner: string) => `{${inner}${inner ? ',' : ''}${inner || '"a":1,"a":2'}}`)
      : '{"id":"x","id":"y"}',
  }),
  'broken text': (sent, draw) => ({
    ...sent,
    raw: draw.one(['{', '[1,', '', 'null', '\u0000', '{"a":1}}', '{"id":1e999}', '\ufeff{}', '{"__proto__":{"x":1}}', 'undefined']),
  }),
  'wrong media type': (sent, draw) => ({ ...sent, headers: { ...sent.headers, 'content-type': draw.one(MEDIA) } }),
  'missing field': (sent, draw) =>
    fields(sent.body) && Object.keys(sent.body).length
      ? { ...sent, body: without(sent.body, draw.one(Object.keys(sent.body))) }
      : { ...sent, query: '' },
  'extra field': (sent, draw) => ({
    ...sent,
    body: {
      ...(fields(sent.body) ? sent.body : {}),
      [draw.one(['extra', 'constructor', 'isOwner', 'roles', 'version', 'recordedAt', ''])]: draw.one([1, 'owner', ['owner'], {}]),
    },
  }),
  'id that is none': (sent, draw) => ({
    ...sent,
    path: sent.path.replace(/[0-9a-f]{8}-[0-9a-f-]{27}/, () => draw.one(NO_IDS)),
    body: sent.path.includes('-7') ? sent.body : atOnePlace(sent.body ?? {}, draw, () => draw.one(NO_IDS)),
  }),
  'id of something else': (sent, draw, others) => ({
    ...sent,
    path: sent.path.replace(/[0-9a-f]{8}-[0-9a-f-]{27}/, () => draw.one(others)),
  }),
  'odd query': (sent, draw) => ({ ...sent, query: `${sent.query}${sent.query ? '&' : ''}${draw.one(ODD_QUERIES)}` }),
  'invalid cookie': (sent, draw) => ({ ...sent, headers: { ...sent.headers, cookie: draw.one(COOKIES) } }),
  'key or version': (sent, draw) => {
    const [name, values] = draw.one(HEADERS);
    return { ...sent, headers: { ...sent.headers, [name]: draw.one(values) } };
  },
};

const without = (body: Record<string, unknown>, name: string): Record<string, unknown> =>
  Object.fromEntries(Object.entries(body).filter(([key]) => key !== name));
