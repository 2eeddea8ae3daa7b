// A thousand bad requests over all routes: none may break the service, each no is told in plain words, and nothing is half-saved. Twenty thousand when the long tests run.
import { describe, expect, it } from 'vitest';
import { hostileTo } from '../../support/hostileRun.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';

const HOW_MANY = 1000;
const SEED = 20260512;

const api = testApi();
withStarter(api);
const hostile = hostileTo(api);

describe('bad requests', () => {
  it(`${HOW_MANY} of them, seed ${SEED}`, { timeout: 240_000 }, async () => {
    await hostile.send(HOW_MANY, SEED);
  });

  it.each([
    ['a part of the address', 'PUT', '/api/ledger/accounts/%00', { name: 'Repairs' }, 'code'],
    ['the query', 'GET', '/api/find?q=%00', undefined, 'q'],
    ['the body', 'POST', '/api/session', { email: 'olive@test.example', password: 'a\u0000b' }, 'password'],
    ['a list in the body', 'POST', '/api/fee-schedules/what-if', { services: ['home', '\u0000'] }, 'services.1'],
  ] as const)('tells of a zero character in %s, which the database keeps in no text', async (_, method, url, payload, field) => {
    const reply = await api.app().inject({ method, url, headers: { cookie: hostile.cookie() }, ...(payload ? { payload } : {}) });
    expect([reply.statusCode, reply.json().errors]).toEqual([
      422,
      [{ field, message: 'There is a character in it that cannot be kept: type it anew.' }],
    ]);
  });
});
