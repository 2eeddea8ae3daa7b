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

/** The word that the PDF of a job's newest agreement shows to its first signer. */
export async function wordOf({ read }: Database, jobId: string): Promise<string> {
  const [row] = await read.rows<{ sha: string; id: string }>(
    'SELECT a.sha256 AS sha, s.id::text AS id FROM agreement a JOIN signer s ON s.agreement_id = a.id WHERE a.job_id = $1::uuid ORDER BY a.issued_at DESC, s.id LIMIT 1',
    [jobId],
  );
  return formatWord(row!.sha, row!.id);
}
