// The reads that people wait for, each as somebody who waits for it.
import type { FastifyInstance } from 'fastify';
import pg from 'pg';
import { signedIn, type Ask } from './recording.ts';

/** A job with all its papers, the callback with most to tell, and the words of that job's house. */
async function shown(url: string): Promise<{ job: string; callback: string; words: string }> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  const { rows } = await client.query<{ job: string; callback: string; words: string }>(
    `SELECT j.id::text AS job, p.address AS words, (SELECT c.id::text FROM callback c ORDER BY (SELECT count(*) FROM callback_event e WHERE e.callback_id = c.id) DESC, c.number LIMIT 1) AS callback
     FROM job j JOIN property p ON p.id = j.property_id WHERE j.state = 'booked' AND EXISTS (SELECT FROM agreement a WHERE a.job_id = j.id) ORDER BY j.number DESC LIMIT 1`,
  );
  await client.end();
  return { ...rows[0]!, words: rows[0]!.words.replace(/^\d+ /, '') };
}

/** By name; `app` is a service over the demo firm at `url`, for the sessions. */
export async function asksOf(url: string, app: FastifyInstance): Promise<[name: string, ask: Ask][]> {
  const { job, callback, words } = await shown(url);
  const [office, lead] = [await signedIn(app, 'dolores'), await signedIn(app, 'ruth')];
  const addresses: [string, string, string][] = [
    ['home, office', '/api/home', office],
    ['home, lead inspector', '/api/home', lead],
    ['week of people', '/api/week?from=2026-05-11', office],
    ['one job', `/api/jobs/${job}`, office],
    ['one callback', `/api/callbacks/${callback}`, lead],
    ['go-to box', `/api/find?q=${encodeURIComponent(words)}`, office],
  ];
  return addresses.map(([name, path, cookie]) => [name, { method: 'GET', path, cookie }]);
}
