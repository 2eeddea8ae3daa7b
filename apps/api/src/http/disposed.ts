// What was disposed of is answered for by one sentence, whatever is asked of it.
import type { Route } from '@backsight/contract/route';
import type { Reader } from '@backsight/store/database';
import { refusedAsDisposed } from '@backsight/usecases/personal/disposed';

const NAMES_A_JOB = /^\/api\/(jobs|callbacks|agreements|reports|visits|site-records)\/:(\w+)/;

/** The refusal for a route about a job, or about something of one, whose records went; null for every other. */
export async function disposedOf(read: Reader, { path }: Route, params: unknown) {
  const found = NAMES_A_JOB.exec(path);
  const id = found && (params as Record<string, unknown>)[found[2]!];
  return typeof id === 'string' && UUID.test(id) ? refusedAsDisposed(read, { of: found![1] as 'jobs', id }) : null;
}

const UUID = /^[\da-f]{8}(-[\da-f]{4}){3}-[\da-f]{12}$/i;
