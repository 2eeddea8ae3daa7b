// A database in memory, behind the same two doors as the real one: the use cases run on it unchanged, and what they write is loaded later.
import type { Database, Reader, Tx } from '@backsight/store/database';
import type { Answer } from './answer.ts';
import { AFTER_ANSWERS } from './answers/after.ts';
import { AGREEMENT_ANSWERS } from './answers/agreements.ts';
import { CALLBACK_ANSWERS } from './answers/callbacks.ts';
import { CLOCK_ANSWERS } from './answers/clocks.ts';
import { DESK_ANSWERS } from './answers/desk.ts';
import { FEE_ANSWERS } from './answers/fees.ts';
import { FEE_SET_UP_ANSWERS } from './answers/feeSetUp.ts';
import { FIRM_ANSWERS } from './answers/firm.ts';
import { JOB_ANSWERS } from './answers/jobs.ts';
import { PROCEDURE_ANSWERS } from './answers/procedures.ts';
import { REPORT_ANSWERS } from './answers/reports.ts';
import { SCHEDULE_ANSWERS } from './answers/schedule.ts';
import { SITEWORK_ANSWERS } from './answers/sitework.ts';
import { TRAVEL_ANSWERS } from './answers/travel.ts';
import { WORLD_ANSWERS } from './answers/world.ts';
import { MAIL_ANSWERS } from './mailLink.ts';
import { verbsOf, type Tables } from './tables.ts';

const ANSWERS: readonly Answer[] = [
  ...FIRM_ANSWERS,
  ...JOB_ANSWERS,
  ...SCHEDULE_ANSWERS,
  ...WORLD_ANSWERS,
  ...TRAVEL_ANSWERS,
  ...FEE_ANSWERS,
  ...FEE_SET_UP_ANSWERS,
  ...AGREEMENT_ANSWERS,
  ...PROCEDURE_ANSWERS,
  ...SITEWORK_ANSWERS,
  ...REPORT_ANSWERS,
  ...CALLBACK_ANSWERS,
  ...CLOCK_ANSWERS,
  ...AFTER_ANSWERS,
  ...DESK_ANSWERS,
  ...MAIL_ANSWERS,
  { marks: ['pg_advisory_xact_lock'], reply: () => [] },
];

const chosen = new Map<string, Answer>();

/** @throws Error when no answer, or more than one, fits: then the store has changed and the demo has to follow */
function answerTo(sql: string): Answer {
  let answer = chosen.get(sql);
  if (!answer) {
    const fitting = ANSWERS.filter(({ marks }) => marks.every((mark) => sql.includes(mark)));
    if (fitting.length !== 1) throw new Error(`${fitting.length} answers of the demo fit this statement: ${sql}`);
    chosen.set(sql, (answer = fitting[0]!));
  }
  return answer;
}

/** The tables as a database. Nothing is ever rolled back: a refusal in the making of the demo is a mistake in it. */
export function memoryDatabase(tables: Tables): Database {
  const reader: Reader = { rows: async <T>(sql: string, params: readonly unknown[] = []) => answerTo(sql).reply(tables, params) as T[] };
  const tablesByName = new Map<string, ReturnType<typeof verbsOf>>();
  const verbs = (name: string) => tablesByName.get(name) ?? tablesByName.set(name, verbsOf(tables, name)).get(name)!;
  const execute = async (sql: string, ...params: unknown[]) => answerTo(sql).reply(tables, params).length;
  const db = new Proxy({}, { get: (_, name: string) => (name === '$executeRawUnsafe' ? execute : verbs(name)) });
  const run = async (sql: string, params: readonly unknown[] = []) => void answerTo(sql).reply(tables, params);
  const tx = { ...reader, db, run } as unknown as Tx;
  return {
    read: reader,
    transaction: (work) => work(tx),
    guards: 'triggers only',
    connections: () => ({ open: 0, idle: 0, waiting: 0 }),
    close: async () => {},
  };
}
