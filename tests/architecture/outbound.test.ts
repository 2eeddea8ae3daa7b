// Whom the service talks to: only these files open connections to elsewhere, each to an address of the settings (OWASP ASVS 5.0.0, 13.2.4 and 13.2.5).
import { expect, it } from 'vitest';
import { repository } from './read.ts';

/** The road service, the mail server, and the database by its driver, also beside a service that runs. */
const OUTWARD = new Map<string, RegExp>([
  ['apps/api/src/adapters/roads/askJson.ts', /fetch\(url\./],
  ['apps/api/src/http/mailer.ts', /createTransport\(\{ url/],
  ['apps/api/src/adapters/scanner.ts', /net\.connect\(\{ host, port \}/],
  ['packages/store/src/database.ts', /connectionString: url/],
]);
const OPENS =
  /\bfetch\(|createTransport\(|\b(?:https?|http2|net|tls|dgram)\.(?:request|get|connect|createConnection|createSocket)\(|new WebSocket\(/;
const served = repository().filter(({ path }) => /^(apps\/api|packages\/\w+)\/src\//.test(path) && !path.includes('/generated/'));

it('is each of these, by its setting', () => {
  for (const [path, how] of OUTWARD) expect(served.find((file) => file.path === path)?.text, path).toMatch(how);
});

it('is nobody else', () => {
  expect(served.filter(({ path, text }) => OPENS.test(text) && !OUTWARD.has(path)).map(({ path }) => path)).toEqual([]);
});

it('leaves the browser to its own host: no address of another stands in the app but behind a link', () => {
  const elsewhere = repository()
    .filter(({ path }) => path.startsWith('apps/web/src/'))
    .flatMap(({ path, text }) =>
      [...text.matchAll(/(?<!href=)['"`](?:https?:)?\/\/(?!www\.w3\.org\/)[\w.-]+/g)].map((m) => `${path}: ${m[0]}`),
    );
  expect(elsewhere).toEqual([]);
});
