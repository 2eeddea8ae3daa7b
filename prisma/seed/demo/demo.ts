// The demo firm, made for the day of the start and loaded into an empty database in one transaction.
import { copyIn } from '@backsight/store/copy';
import { hashPassword } from '@backsight/usecases/people/steps/password';
import { calendarOf } from './calendar.ts';
import { idMaker } from './chance.ts';
import { begin } from './firm.ts';
import { loadTables } from './load.ts';
import { memoryDatabase } from './memory/database.ts';
import type { Tables } from './memory/tables.ts';
import { DEMO_PASSWORD, emailOf, everybody } from './people.ts';
import { plansOf } from './plan.ts';
import { call } from './scripts/booking.ts';
import { openStage } from './stage.ts';

export type SignIn = { name: string; roles: string[]; email: string };
export type Demo = { tables: Tables; acts: number };

const SEED = 4471;

/** Everything that the demo firm has on record at `now`, as tables in memory. The same `now` makes the same firm, but for salts and links. */
export async function demoFor(now: Date, publicUrl = 'http://127.0.0.1:4800', passwordHash?: string): Promise<Demo> {
  const tables: Tables = new Map();
  const calendar = calendarOf(now);
  const newId = idMaker(SEED);
  const database = memoryDatabase(tables);
  await database.transaction(async (tx) => begin({ tx, calendar, newId, passwordHash: passwordHash ?? (await hashPassword(DEMO_PASSWORD)), awayWorkdays: [-17, 4] }));
  const { stage, play } = openStage({ database, newId, until: now });
  for (const plan of plansOf(calendar, now)) stage.at(plan.bookedAt, call({ calendar, publicUrl }, plan));
  return { tables, acts: await play() };
}

/** Fills an empty, migrated database with the demo firm; a start that is cut off leaves nothing behind. `url` is that of the tables' owner. */
export async function seedDemo(url: string, { now, publicUrl, say = () => {} }: { now: Date; publicUrl: string; say?: (line: string) => void }): Promise<SignIn[]> {
  say('making the demo firm: twelve weeks of jobs around today ...');
  const { tables } = await demoFor(now, publicUrl);
  say('loading it into the database ...');
  await copyIn(url, (session) => loadTables(session, tables, now));
  return everybody.map((one) => ({ name: one.name, roles: [...one.roles], email: emailOf(one) }));
}
