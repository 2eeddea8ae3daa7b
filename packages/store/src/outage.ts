// Tells what failed around a request, not in it: the database is away or does not answer in time, or a disk is full.
import { causeOf, sqlState } from './constraint.ts';

type Failed = { code?: unknown; message?: unknown };
export type Outage = 'database' | 'disk';

/**
 * Of the server (PostgreSQL manual, appendix A): class 08 connection, 57P0x it ends or starts, 53300 too many connections, 57014 a
 * statement took too long, 55P03 a lock did, 25P03 and 25P04 a transaction did.
 */
const AWAY = /^(08...|57P0[1-5]|53300|57014|55P03|25P0[34])$/;
/** Of the system (errno), and of Prisma: not reached, closed by the server, no connection or no end in time. */
const UNREACHED = new Set(['ECONNREFUSED', 'ECONNRESET', 'EPIPE', 'ETIMEDOUT', 'ENOTFOUND', 'EAI_AGAIN', 'EHOSTUNREACH', 'ENETUNREACH']);
const UNREACHED_BY_PRISMA = new Set(['P1001', 'P1002', 'P1008', 'P1017', 'P2024', 'P2028', 'P2037']);
const KINDS = new Set(['DatabaseNotReachable', 'ConnectionClosed', 'SocketTimeout', 'TooManyConnections']);
/** What `pg` says without a code. */
const WORDS =
  /Connection terminated|Client has encountered a connection error|timeout exceeded when trying to connect|timeout expired|connection error and is not queryable|Client was closed/i;
const FULL = new Set(['ENOSPC', 'EDQUOT', 'EFBIG']);
/** 53100: the server's disk is full. */
const SERVER_FULL = '53100';

/** What failed, or null: then it was something else. */
export function outageOf(error: unknown): Outage | null {
  const { code, message } = (error ?? {}) as Failed;
  const [state, { kind }] = [sqlState(error), causeOf(error)];
  if (state === SERVER_FULL || FULL.has(String(code))) return 'disk';
  if (state !== undefined && AWAY.test(state)) return 'database';
  const away = UNREACHED.has(String(code)) || UNREACHED_BY_PRISMA.has(String(code)) || (kind !== undefined && KINDS.has(kind));
  return away || (typeof message === 'string' && WORDS.test(message)) ? 'database' : null;
}
