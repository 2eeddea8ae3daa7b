// The demo firm, made for the day of the start and loaded into an empty database in one transaction.
import { shiftDay } from '@backsight/domain/shared/calendar';
import { copyIn } from '@backsight/store/copy';
import type { Database } from '@backsight/store/database';
import { hashPassword } from '@backsight/usecases/people/steps/password';
import { calendarOf } from './calendar.ts';
import { idMaker } from './chance.ts';
import { begin, MONITOR_SERIALS, WHOLE_BOOK_DAYS_AGO } from './firm.ts';
import { loadTables } from './load.ts';
import { memoryDatabase } from './memory/database.ts';
import { all, insert, type Tables } from './memory/tables.ts';
import { DEMO_PASSWORD, PEOPLE } from './people.ts';

export { DEMO_PASSWORD };
import { BEHIND } from './history/left.ts';
import { countersAfter, FIRST_DAYS_AGO, FIRST_NUMBER, pastOf, type Past } from './history/history.ts';
import { loadWholeBook } from './history/shortBook.ts';
import { plansOf, quietStarts, type JobPlan } from './plan.ts';
import { keepsBooks } from './scripts/books.ts';
import { call } from './scripts/booking.ts';
import { closesForWeather, elioAsks } from './scripts/desk.ts';
import { feesAreSetUp } from './scripts/feeSetUp.ts';
import { looksAtDrives } from './scripts/drive.ts';
import { keepsOnCall } from './scripts/onCall.ts';
import { openStage } from './stage.ts';

export type Demo = { tables: Tables; acts: number };

const SEED = 4471;
/** Working days, counted from today, on which one inspector is on leave: he has not seen the newest revision yet. */
const AWAY: [number, number] = [-26, 4];

export type Life = {
  now: Date;
  publicUrl: string;
  passwordHash: string;
  /** Only the first jobs, by their booking; all when absent. */ jobs?: number;
  /** Of the jobs that just go through only one in so many; all when absent. */ oneIn?: number;
  /** Working days before `now` that are played; those of twelve weeks when absent. */ workdays?: number;
  past?: Past;
};

const isPlain = ({ role, fate, covers }: JobPlan): boolean => role === 'none' && fate === 'goes_through' && covers === null;

/** Lets the firm live its weeks up to `now` in an empty database, in memory or real. Answers how many scenes were played. */
export async function live(database: Database, { now, publicUrl, passwordHash, jobs, oneIn = 1, workdays, past }: Life): Promise<number> {
  const calendar = calendarOf(now);
  const newId = idMaker(SEED);
  await database.transaction(async (tx) => {
    await begin({ tx, calendar, newId, passwordHash, awayWorkdays: AWAY, quiet: quietStarts(calendar, now) });
    if (past) await tx.db.numberCounter.createMany({ data: countersAfter(past.jobs) });
  });
  const { stage, play } = openStage({ database, newId, until: now, publicUrl });
  const demo = { calendar, publicUrl, monitors: [...MONITOR_SERIALS], rides: [], places: new Map() };
  past?.comesUp(demo, stage);
  const whole = {
    at: calendar.at(shiftDay(calendar.today, -WHOLE_BOOK_DAYS_AGO), 9),
    authorId: PEOPLE.ruth.id,
    approverId: PEOPLE.owner.id,
  };
  stage.at(whole.at, () => database.transaction((tx) => loadWholeBook(tx, { ...whole, newId })));
  const plans = plansOf(calendar, now, past?.plainDays, workdays).filter((plan) => !isPlain(plan) || plan.n % oneIn === 0);
  for (const plan of plans.slice(0, jobs)) stage.at(plan.bookedAt, call(demo, plan));
  elioAsks(demo, stage);
  closesForWeather(demo, stage);
  keepsBooks(demo, stage);
  keepsOnCall(demo, stage);
  feesAreSetUp(demo, stage);
  stage.at(calendar.at(shiftDay(calendar.today, -1), 6), looksAtDrives);
  return play();
}

type Options = Partial<Omit<Life, 'now' | 'past'>> & {
  /** How far back the past goes, in days; 0: nothing before the played weeks. */ pastDays?: number;
  /** Only those past jobs about which somebody called are made now; `loadPastBehind` loads the others. */ behind?: boolean;
};

/** Everything that the demo firm has on record at `now`, as tables in memory. The same `now` makes the same firm, but for salts and links. */
export async function demoFor(now: Date, { pastDays = FIRST_DAYS_AGO, behind = false, ...options }: Options = {}): Promise<Demo> {
  const tables: Tables = new Map();
  const hash = options.passwordHash ?? hashPassword(DEMO_PASSWORD); // takes its time beside the rest
  const calendar = calendarOf(now);
  const past = pastOf(tables, calendar, pastDays);
  const life = { publicUrl: 'http://127.0.0.1:4800', ...options, now, passwordHash: '', past };
  const acts = await live(memoryDatabase(tables), life);
  if (behind) insert(tables, 'numberCounter', { kind: BEHIND, next: FIRST_NUMBER });
  else past.rest();
  const passwordHash = await hash;
  for (const person of all(tables, 'person')) person.passwordHash = passwordHash;
  return { tables, acts };
}

type Seed = { now: Date; publicUrl: string; pastDays?: number; say?: (line: string) => void };

/** Writes the tables of a firm into an empty, migrated database in one transaction. Answers how many rows there are. `behind` as in `demoFor`. */
export const loadDemo = (url: string, tables: Tables, now: Date, behind: boolean): Promise<number> =>
  copyIn(url, (session) => loadTables(session, tables, now, behind ? ['invoice'] : []));

/** Whether the past may be loaded behind: rows are then written that come apart from those that they follow, which not every server allows. */
export const mayComeBehind = (url: string): Promise<boolean> => copyIn(url, (session) => session.mayGoUnchecked());

/** Fills an empty, migrated database with the demo firm; a start that is cut off leaves nothing behind. `url` is that of the tables' owner. */
export async function seedDemo(url: string, { now, publicUrl, pastDays, say = () => {} }: Seed): Promise<void> {
  const behind = pastDays === undefined && (await mayComeBehind(url));
  const { tables } = await demoFor(now, { publicUrl, behind, ...(pastDays === undefined ? {} : { pastDays }) });
  const rows = await loadDemo(url, tables, now, behind);
  say(`the demo firm is there (${rows.toLocaleString('en-US')} rows)`);
}
