// How long the pages of liabilities take for a firm of ten years, and what they take at a tenth of it: the same requests over HTTP
// in one process, the two sizes taken turn about. Rows of both sizes are counted first. The size of each answer is said beside its
// time: a page that names people, pairs or the callbacks of a month has more to show where there are more.
import { quantile, TOGETHER, type Bench } from './bench.ts';
import { bothOf, SIZES } from './firm.ts';
import { withYears } from './years/databases.ts';

const TIMES = TOGETHER ? 6 : 40;
const WARM = 5;

/** An inspector's own figures; the other pages are the owner's. */
const OWN = '/api/liability/people/own';
const whoOf = (page: string) => (page === OWN ? 'amos' : 'harriet');
/** What the pages of liabilities ask for; the month and the step are among the busiest of the firm. */
const PAGES = [
  '/api/liability',
  '/api/liability/entries',
  '/api/liability/entries?inspected=2026-03',
  '/api/liability/open-callbacks',
  '/api/liability/callbacks?inspected=2026-03',
  '/api/liability/overrides',
  '/api/liability/unsigned-starts',
  '/api/liability/held-jobs',
  '/api/liability/cash',
  '/api/liability/development',
  '/api/liability/development?of=incurred&by=month',
  '/api/liability/development?asOf=2024-06-30',
  '/api/liability/windows',
  '/api/liability/windows/jobs?inspected=2026-03',
  '/api/liability/frequency?by=month',
  '/api/liability/frequency?by=pair',
  '/api/liability/people',
  OWN,
  '/api/liability/steps',
  '/api/liability/steps/ground-fault-trip-reset',
  '/api/liability/outlook',
];

const bench: Bench = {
  about:
    'pages of liabilities over HTTP, ms, at a firm of 100 inspectors after ten years and after eleven months; the target is 300 ms at 95 % and a ratio of 1.5',
  run: async (say, named) => {
    const server = await withYears(SIZES, named, console.log);
    if (server === null) return say({ page: 'not made yet: npm run bench -- liability' });
    const [tenth, whole] = await bothOf(server);
    for (const table of ['job', 'step_entry', 'callback'])
      say({
        page: `rows of ${table}`,
        tenthP50: await tenth.rows(table),
        wholeP50: await whole.rows(table),
        wholeP95: null,
        ratio: null,
        tenthKB: null,
        wholeKB: null,
      });
    if (tenth.rebuilt !== null && whole.rebuilt !== null)
      say({
        page: 'sums made, all of them',
        tenthP50: tenth.rebuilt,
        wholeP50: whole.rebuilt,
        wholeP95: null,
        ratio: whole.rebuilt / tenth.rebuilt,
        tenthKB: null,
        wholeKB: null,
      });
    for (const page of PAGES) {
      const [small, large]: [number[], number[]] = [[], []];
      let [tenthKB, wholeKB] = [0, 0];
      for (let turn = 0; turn < WARM + TIMES; turn++) {
        const [a, b] = [await tenth.get(page, whoOf(page)), await whole.get(page, whoOf(page))];
        [tenthKB, wholeKB] = [a.kB, b.kB];
        if (turn < WARM) continue;
        small.push(a.ms);
        large.push(b.ms);
      }
      const [tenthP50, wholeP50] = [quantile(small, 0.5), quantile(large, 0.5)];
      say({ page, tenthP50, wholeP50, wholeP95: quantile(large, 0.95), ratio: wholeP50 / tenthP50, tenthKB, wholeKB });
    }
    await tenth.close();
    await whole.close();
    await server.stop();
  },
};
export default bench;
