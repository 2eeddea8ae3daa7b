// One question to the road service at the configured address: in time, of bounded size, never led elsewhere.
const MOST_BYTES = 4_000_000;

export type Asked = { status: number; body: unknown };
export type At = { url: string; timeoutMs: number };

/**
 * Asks and reads JSON. `path` begins with a slash and is put behind the configured address; a redirect is a fault.
 * @throws Error with a sentence for the office when there is no answer in time, it is too long or no JSON.
 */
export async function askJson({ url, timeoutMs }: At, path: string, body?: unknown): Promise<Asked> {
  const signal = AbortSignal.timeout(timeoutMs);
  try {
    const response = await fetch(url.replace(/\/+$/, '') + path, {
      redirect: 'error',
      signal,
      headers: { accept: 'application/json', ...(body === undefined ? {} : { 'content-type': 'application/json' }) },
      ...(body === undefined ? {} : { method: 'POST', body: JSON.stringify(body) }),
    });
    return { status: response.status, body: parsed(await textOf(response), response.status) };
  } catch (error) {
    if (error instanceof Fault) throw new Error(error.message, { cause: error });
    if (signal.aborted) throw new Error(`no answer within ${timeoutMs / 1000} seconds`, { cause: error });
    throw new Error('the road service cannot be reached', { cause: error });
  }
}

class Fault extends Error {}

function parsed(text: string, status: number): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new Fault(status === 200 ? 'the answer is no JSON' : `the answer has status ${status}`);
  }
}

async function textOf(response: Response): Promise<string> {
  const chunks: Uint8Array[] = [];
  let bytes = 0;
  for await (const chunk of response.body ?? []) {
    bytes += chunk.length;
    if (bytes > MOST_BYTES) throw new Fault('the answer is too long');
    chunks.push(chunk);
  }
  return Buffer.concat(chunks).toString('utf8');
}
