// Takes spreadsheets through the service in a test: take, map, look through, bring in, take out.
import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import { bringIns } from '../../apps/api/src/jobs/bringIns.ts';
import type { CastName } from './cast.ts';
import type { TestApi } from './http.ts';
import { servicesOf } from './services.ts';

type Kind = 'people' | 'clients' | 'properties' | 'jobs';

/** The steps over the API of a test; `work` is what the clock does. */
export function bringInOf(api: TestApi) {
  const work = () => bringIns.run(servicesOf(api));
  const one = async (id: string, who: CastName = 'office') => (await api.send(who, 'GET', `/api/bring-ins/${id}`)).body;
  const take = async (kind: Kind, text: string | Uint8Array, who: CastName = 'office'): Promise<string> => {
    const id = randomUUID();
    const sent = typeof text === 'string' ? { text } : { file: { name: 'before.csv', base64: Buffer.from(text).toString('base64') } };
    const answer = await api.send(who, 'POST', '/api/bring-ins', { body: { id, kind, ...sent } });
    expect(answer.status, JSON.stringify(answer.body)).toBe(201);
    return id;
  };
  /** With the guessed mapping, or another. */
  const check = async (id: string, { mapping, who = 'office' }: { mapping?: object; who?: CastName } = {}) => {
    const { version, mapping: guessed } = await one(id, who);
    const answer = await api.send(who, 'PUT', `/api/bring-ins/${id}/mapping`, { version, body: mapping ?? guessed });
    expect(answer.status, JSON.stringify(answer.body)).toBe(200);
    await work();
    return one(id, who);
  };
  const act = async (id: string, what: 'bring' | 'undo' | 'throw-away', body?: object, who: CastName = 'office') => {
    const { version } = await one(id, who);
    return api.send(who, 'POST', `/api/bring-ins/${id}/${what}`, { version, body, once: true });
  };
  const bring = async (kind: Kind, text: string | Uint8Array, { leaveOut = false, who = 'office' as CastName } = {}): Promise<string> => {
    const id = await take(kind, text, who);
    await check(id, { who });
    const answer = await act(id, 'bring', { leaveOut }, who);
    expect(answer.status, JSON.stringify(answer.body)).toBe(200);
    await work();
    expect(await one(id, who)).toMatchObject({ state: 'done', note: null });
    return id;
  };
  const problems = async (id: string) =>
    (await api.send('office', 'GET', `/api/bring-ins/${id}/problems`)).body.items as {
      line: number;
      column: string;
      text: string;
      weight: string;
    }[];
  return { work, one, take, check, act, bring, problems };
}

const HEADS = 'Date,Time,Address,City,Zip,Client,Email,Phone,Service,Fee,Inspector,Partner,Report date,Job number';
/** The row of a past job, right as it is; `more` says some cells otherwise. */
export const pastJob = (n: number, more: Partial<Record<string, string>> = {}): string => {
  const cells = {
    ...{
      date: '3/9/2025',
      time: '9:00 AM',
      address: `${n} Alder Way`,
      city: 'Birchmere',
      zip: '',
      client: `Client ${n}`,
      email: `c${n}@mail.example`,
      phone: '920-555-0170',
    },
    ...{ service: '', fee: '$450.00', first: 'Anna Inspector', second: 'Ben Inspector', report: '3/10/2025', number: `A-${n}`, ...more },
  };
  return Object.values(cells)
    .map((cell) => (/[",\n]/.test(cell!) ? `"${cell!.replaceAll('"', '""')}"` : cell))
    .join(',');
};
/** Rows of past jobs under their heads. */
export const pastJobs = (...rows: string[]): string => [HEADS, ...rows, ''].join('\r\n');

const WRITTEN = [
  'person',
  'party',
  'property',
  'fact_sheet',
  'job',
  'visit',
  'assignment',
  'job_party',
  'job_service',
  'job_fee_line',
  'past_job',
];
const NEVER = ['outgoing_mail', 'invoice', 'ledger_entry', 'agreement', 'report', 'site_record', 'visit_pay'];

/** How many rows there are of what may be brought in, and of what bringing in never makes. */
export async function rowsOf(api: TestApi): Promise<{ written: number[]; never: number[] }> {
  const count = async (table: string) => (await api.database.read.rows<{ n: number }>(`SELECT count(*)::int AS n FROM ${table}`))[0]!.n;
  return { written: await Promise.all(WRITTEN.map(count)), never: await Promise.all(NEVER.map(count)) };
}
