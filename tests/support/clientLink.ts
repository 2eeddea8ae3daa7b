// A client's private page as a browser without scripts uses it.
import { formatWord } from '@backsight/domain/agreements/signing';
import type { Database } from '@backsight/store/database';
import type { testApi } from './http.ts';

/** Posts a form to a private link. */
export const postForm = (api: ReturnType<typeof testApi>, link: string, fields: Record<string, string>) =>
  api.app().inject({
    method: 'POST',
    url: link,
    headers: { 'content-type': 'application/x-www-form-urlencoded', 'user-agent': 'A phone' },
    payload: new URLSearchParams(fields).toString(),
  });

/** Posts a form with files to a private link. */
export async function postFiles(api: ReturnType<typeof testApi>, link: string, form: FormData) {
  const sent = new Response(form);
  const headers = { 'content-type': sent.headers.get('content-type')!, 'user-agent': 'A phone' };
  return api.app().inject({ method: 'POST', url: link, headers, payload: Buffer.from(await sent.arrayBuffer()) });
}

/** The word that the PDF of a job's newest agreement shows to its first signer. */
export async function wordOf({ read }: Database, jobId: string): Promise<string> {
  const [row] = await read.rows<{ sha: string; id: string }>(
    'SELECT a.sha256 AS sha, s.id::text AS id FROM agreement a JOIN signer s ON s.agreement_id = a.id WHERE a.job_id = $1::uuid ORDER BY a.issued_at DESC, s.id LIMIT 1',
    [jobId],
  );
  return formatWord(row!.sha, row!.id);
}

/** On a client's page: where its summary of faults leads, then which inputs say that they are at fault, each followed by its sentence. */
export const faultsShown = (page: string): string =>
  [...page.matchAll(/<li><a href="#(\w+)"|by="(\w+)-wrong"|"wrong" id="(\w+)-wrong"/g)].map(([, led, by, id]) => led ?? by ?? id).join(' ');
