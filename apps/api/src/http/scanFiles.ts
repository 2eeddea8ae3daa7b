// Files that somebody sends are shown to a scanner first, where the installation has one; nothing is kept of a harmful one, nor while it does not answer.
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { Problem } from '@backsight/contract/problem';
import { scannerAt } from '../adapters/scanner.ts';
import { badRequest, sendProblem } from './problem.ts';
import type { Services } from './services.ts';

/** A text this long that is base64 throughout is a file. */
const SHORTEST_FILE = 200;
const BASE64 = /^[A-Za-z0-9+/]+={0,2}$/;
const HARMFUL = 'The scanner finds this file harmful. Nothing of it was kept.';
const SILENT = 'The scanner of files does not answer. Try again in a few minutes.';

/** Every file in a body: base64 in JSON, also with the head of a data address. */
export function filesIn(value: unknown): Buffer[] {
  if (typeof value === 'string') {
    const text = value.replace(/^data:[\w/+.-]+;base64,/, '');
    return text.length >= SHORTEST_FILE && BASE64.test(text) ? [Buffer.from(text, 'base64')] : [];
  }
  return value !== null && typeof value === 'object' ? Object.values(value).flatMap(filesIn) : [];
}

/** What stands against the files in a body; null where nothing does. */
export async function harmIn({ config }: Services, request: FastifyRequest, body: unknown): Promise<Problem | null> {
  if (config.scannerUrl === undefined) return null;
  const scan = scannerAt(config.scannerUrl);
  try {
    for (const file of filesIn(body)) if ((await scan(file)) === 'harmful') return { ...badRequest('file-harmful', HARMFUL), status: 422 };
    return null;
  } catch (error) {
    request.log.error({ err: error }, 'the scanner of files did not answer');
    return { ...badRequest('scanner-silent', SILENT), status: 503 };
  }
}

/** Hangs the look before every handler. Forms of a browser are looked at where they are read, photo by photo. */
export function scanFiles(app: FastifyInstance, services: Services): void {
  app.addHook('preHandler', async (request: FastifyRequest, reply: FastifyReply) => {
    const harm = await harmIn(services, request, request.body);
    return harm === null ? undefined : sendProblem(reply, harm);
  });
}
