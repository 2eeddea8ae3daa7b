// Twenty thousand bad requests over all routes, with a seed of the day unless HOSTILE_SEED says which; what must hold is said in tests/support/hostileRun.ts.
import { it } from 'vitest';
import { hostileTo } from '../support/hostileRun.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const HOW_MANY = 20_000;
const SEED = Number(process.env.HOSTILE_SEED ?? Math.floor(Date.now() / 86_400_000));

const api = testApi();
withStarter(api);
const hostile = hostileTo(api);

it(`${HOW_MANY} bad requests, seed ${SEED}`, async () => {
  const statuses = await hostile.send(HOW_MANY, SEED);
  console.log(`answers by status: ${JSON.stringify(Object.fromEntries([...statuses].sort()))}`);
});
