// One, two and three services on one database: answers a second of them together, and who spends the processor time. The reads that
// people wait for go round, so that an answer is one of each kind in turn; the services take turns at being many or few. Where the
// processors of the machine are used up by one service, more of them answer no more: then the table says what each answer costs the
// services and the database, and so how many cores of services one core of the database feeds.
import os from 'node:os';
import { quantile, TOGETHER, type Bench } from './bench.ts';
import { asksOf } from './http/asks.ts';
import { builtProgram } from './http/built.ts';
import { withCopies, type Copies } from './http/copies.ts';
import { load, requestOf } from './http/load.ts';
import { apiOver } from './http/parts.ts';
import { headersOf } from './http/recording.ts';
import { startUnder, type Under } from './http/under.ts';
import { YEARS_NOW } from './years/databases.ts';

const MOST = 3;
/** Of each service to the database, and under way at each. */
const CONNECTIONS = 6;
const [TURNS, SECONDS, WARM_SECONDS] = TOGETHER ? [3, 2, 4] : [5, 3, 5];

type Taken = { rate: number; services: number; database: number | null; busy: number };

/** All of `services` under load at once; processor milliseconds for each answer, and the share of the machine's processors in use. */
async function together(services: readonly Under[], copies: Copies, requests: readonly Buffer[], seconds: number): Promise<Taken> {
  const used = async () => (await Promise.all(services.map((one) => one.used()))).reduce((sum, { cpu }) => sum + cpu, 0);
  const [before, databaseBefore, idleBefore] = [await used(), copies.cpu(), idle()];
  const until = performance.now() + seconds * 1000;
  const loads = services.map(({ port }, of) => {
    let at = of;
    return load(port, CONNECTIONS, () => (performance.now() < until ? requests[at++ % requests.length]! : null));
  });
  const done = await Promise.all(loads);
  const answered = done.reduce((sum, one) => sum + one.answered, 0);
  const took = Math.max(...done.map((one) => one.seconds));
  const [after, databaseAfter] = [await used(), copies.cpu()];
  return {
    rate: answered / took,
    services: (after - before) / answered,
    database: databaseBefore === null || databaseAfter === null ? null : (databaseAfter - databaseBefore) / answered,
    busy: 1 - (idle() - idleBefore) / (took * 1000 * os.cpus().length),
  };
}

/** Milliseconds in which processors of this machine had nothing to do, since it started. */
const idle = (): number => os.cpus().reduce((sum, { times }) => sum + times.idle, 0);

const bench: Bench = {
  about: `answers a second of one to ${MOST} services on one database, ${CONNECTIONS} requests under way at each; processor ms for each answer; share of the processors in use`,
  run: async (say) => {
    const copies = await withCopies();
    const services: Under[] = [];
    try {
      const [url, program] = [await copies.copy('services_reads'), await builtProgram('program')];
      const api = await apiOver(url, { began: YEARS_NOW.getTime(), connections: 2 });
      const asks = await asksOf(url, api.app);
      await api.close();
      const requests = asks.map(([, ask]) => requestOf(ask.method, ask.path, headersOf(ask)));
      for (let n = 0; n < MOST; n++)
        services.push(await startUnder(program, { url, began: YEARS_NOW.getTime(), connections: CONNECTIONS, recorded: null }));
      for (const one of services) await together([one], copies, requests, WARM_SECONDS);
      const taken = services.map((): Taken[] => []);
      for (let turn = 0; turn < TURNS; turn++)
        for (let many = 1; many <= MOST; many++) taken[many - 1]!.push(await together(services.slice(0, many), copies, requests, SECONDS));
      for (const [at, of] of taken.entries()) {
        const ratios = of.map(({ rate }, turn) => rate / taken[0]![turn]!.rate);
        const median = (what: 'rate' | 'services' | 'busy') =>
          quantile(
            of.map((one) => one[what]),
            0.5,
          );
        say({
          services: at + 1,
          'answers /s': median('rate'),
          'to one': quantile(ratios, 0.5),
          'from to': `${Math.min(...ratios).toFixed(2)} ${Math.max(...ratios).toFixed(2)}`,
          'ms services': median('services'),
          'ms database': of.some(({ database }) => database === null)
            ? null
            : quantile(
                of.map((one) => one.database!),
                0.5,
              ),
          'processors in use': median('busy'),
        });
      }
    } finally {
      for (const one of services) await one.stop();
      await copies.stop();
    }
  },
};
export default bench;
