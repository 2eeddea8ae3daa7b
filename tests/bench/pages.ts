// Every page that people wait for, as an address with the person who opens it; and which reads of the service are none.
import { HOME_KEYS } from '@backsight/contract/home';
import type { Route } from '@backsight/contract/route';
import type { Database } from '@backsight/store/database';
import { ASKING, type Asking, type Firm } from './firm.ts';

/** Reads that are no pages, and why they may grow with the firm or are the same for any. */
const NO_PAGES: readonly [RegExp, string][] = [
  [/\.(csv|xlsx|pdf|zip|journal)$/, 'tables and papers to take away hold everything'],
  [/\/(paper|file|photo|photos|original|certificate|receipt|evidence|calendar-feed)(\/|$)/, 'a paper or file by its name'],
  [/\/files\/:which|\/spoken-notes\/|\/day-sheet\/|\/fingerprints\//, 'a paper or file by its name'],
  [/^\/api\/audit\/check$/, 'walks the whole trail'],
  [
    /^\/api\/(health|set-up|bring-in|accounts|estimates|plans|what-ifs|job-files|inquiries\/:id)/,
    'of one thing that the copies leave alone',
  ],
  [
    /letters\/:letterId|\/way-in$|\/comparison|\/gate|\/kept|\/late$|\/swaps$|\/start$|\/stand$|\/remedies\/:id\/starts/,
    'a question before an act',
  ],
  [/^\/api\/kit\/:id/, 'a question before an act'],
  [/^\/api\/jobs\/:id\/(agreement\/preview|file-items)$/, 'a paper or file by its name'],
  [/^\/api\/agreement-texts\/:id|^\/api\/fee-schedules\/:id|^\/api\/(revisions|procedures)\/:id/, 'of the book, the same for any firm'],
];

/** Ids that the pages of one thing are asked with: things of the demo firm, the same at every size. */
async function idsOf(database: Database): Promise<Record<string, string>> {
  const [ids] = await database.read.rows<Record<string, string>>(`
    WITH c AS (SELECT c.id, c.job_id FROM callback c JOIN job j ON j.id = c.job_id WHERE c.state = 'concluded' AND NOT c.owner_only ORDER BY c.number DESC LIMIT 1)
    SELECT c.id::text AS callbacks, c.job_id::text AS jobs, (SELECT number::text FROM job WHERE id = c.job_id) AS number, v.id::text AS visits, r.id::text AS records, i.id::text AS invoices, p.party_id::text AS parties,
      (SELECT id::text FROM person WHERE email LIKE 'amos@%') AS people, (SELECT id::text FROM corrective_action ORDER BY number LIMIT 1) AS "corrective-actions",
      (SELECT id::text FROM property ORDER BY id DESC LIMIT 1) AS properties
    FROM c JOIN visit v ON v.job_id = c.job_id AND v.kind = 'inspection' JOIN site_record r ON r.visit_id = v.id JOIN invoice i ON i.job_id = c.job_id
      JOIN job_party p ON p.job_id = c.job_id LIMIT 1`);
  return ids!;
}

/** Queries without which a page cannot be opened, or with which it is opened most. */
const QUERIES: Record<string, readonly string[]> = {
  '/api/audit': ['', '?thingKind=job&thingId={jobs}', '?before=01900000-0000-7000-8000-000000000000'],
  '/api/callbacks': [
    '',
    '?which=all',
    '?which=closed&cause=skipped',
    '?which=all&q=water',
    '?which=all&inspected=2024-06',
    '?which=open&overdue=yes',
  ],
  '/api/callbacks/groups': ['?which=all&by=step', '?which=all&by=pair', '?by=received'],
  '/api/callbacks/jobs': ['?q=alder', '?q={number}'],
  '/api/callbacks/:id/conflicts': ['?kind=goodwill_payment&cents=20000'],
  '/api/callbacks/:id/letter-drafts/:letter': [],
  '/api/ledger/entries': ['', '?kind=payment', '?from=2024-06-01&to=2024-06-30', '?job={number}', '?words=refund'],
  '/api/ledger/balance': ['', '?until=2024-06-30'],
  '/api/pay': ['?from=2026-04-01&until=2026-04-30'],
  '/api/parties/:id/statement': ['', '?from=2026-01-01&to=2026-05-01'],
  '/api/find': ['?q=alder', '?q={number}', '?q=paulsen', '?q=920-555-0110'],
  '/api/properties': ['?address=100+alder&town=Orrin+Mills'],
  '/api/parties': ['?text=paulsen'],
  '/api/jobs': ['', '?state=reported', '?text=alder', '?text={number}', '?text=paulsen', '?stillToGet=yes', '?state=booked', '?limit=100'],
  '/api/liability/entries': ['', '?inspected=2026-03'],
  '/api/liability/callbacks': ['?inspected=2026-03'],
  '/api/liability/development': ['', '?of=incurred&by=month', '?asOf=2024-06-30'],
  '/api/liability/windows/jobs': ['?inspected=2026-03'],
  '/api/liability/frequency': ['?by=month', '?by=pair'],
  '/api/liability/open-callbacks': ['', '?age=upTo30'],
  '/api/mail': ['', '?state=sent', '?state=bounced', '?before=01900000-0000-7000-8000-000000000000'],
  '/api/bar-choices': ['?kind=party&text=paulsen', '?kind=property&text=alder'],
  '/api/mileage': ['?from=2026-04-01&to=2026-04-30'],
  '/api/personal-data/people': ['?q=paulsen'],
  '/api/week': ['?from=2026-05-11', '?from=2024-05-13'],
  '/api/places': ['?town=Birchmere&zip=54901'],
  '/api/report-register': ['?from=2026-04-01&to=2026-04-30', '?from=2017-01-01&to=2026-05-01'],
  '/api/corrective-actions/:id/elsewhere': ['', '?gap=no_entry'],
  '/api/contacts': ['', '?days=31'],
};
/** Pages that each person sees in a way of their own. */
const OF_EVERYBODY = ['/api/home', '/api/my-day', '/api/my-day/ahead', '/api/jobs', '/api/find', '/api/week'];
const FILLED: Record<string, string> = { ':key': 'ground-fault-trip-reset' };

export type PageOf = { path: string; who: Asking };

/** All pages of the contract as addresses that the firm answers, each with whoever is the first that may open it. */
export async function pagesOf(firm: Firm, routes: readonly Route[]): Promise<PageOf[]> {
  const ids = await idsOf(firm.database);
  const paths = routes
    .filter(({ method, path }) => method === 'GET' && !NO_PAGES.some(([pattern]) => pattern.test(path)))
    .flatMap(({ path }) => (QUERIES[path] ?? ['']).map((query) => ({ route: path, path: path + query })));
  const lists = HOME_KEYS.map((key) => ({ route: '/api/home/list', path: `/api/home?list=${key}` }));
  const pages: PageOf[] = [];
  const unanswered: string[] = [];
  for (const { route, path: named } of [...paths, ...lists]) {
    const path = named
      .replace(/^\/api\/personal-data\/people\/:subject\/:id/, `/api/personal-data/people/party/${ids.parties!}`)
      .replace(/^\/api\/([\w-]+)\/:id/, (whole, kind: string) => whole.replace(':id', ids[kind] ?? ':id'))
      .replace(/\{(\w+)\}/g, (_, kind: string) => ids[kind]!)
      .replace(/:\w+/g, (name) => FILLED[name] ?? ids.jobs!);
    const statuses = new Map<Asking, number>();
    for (const who of ASKING) {
      statuses.set(who, await firm.status(path, who));
      if (statuses.get(who) !== 200) continue;
      pages.push({ path, who });
      if (!OF_EVERYBODY.includes(route)) break;
    }
    if (![...statuses.values()].includes(200)) unanswered.push(`${path}: ${[...statuses.values()].join(', ')}`);
  }
  if (unanswered.length > 0) throw new Error(`Nobody is answered at\n${unanswered.join('\n')}`);
  return pages;
}
