// Everybody works at once: bookings, signatures, payments, entries and photos on site, callbacks. What the service said yes to is kept.
import { randomUUID } from 'node:crypto';
import { DateTime } from 'luxon';
import { expect } from 'vitest';
import type { MemberRecord, SiteStep } from '@backsight/contract/sitework';
import { intake } from '../../http/callbacks/support.ts';
import { answer, start } from '../../http/sitework/support.ts';
import { FACTS, holdBody, PLACE } from '../booking.ts';
import { CAST, type CastName } from '../cast.ts';
import type { TestService } from '../database.ts';
import type { TestApi } from '../http.ts';
import { paidJob } from '../paidJob.ts';
import { picture } from '../pictures.ts';
import { siteJob, type SiteJob } from '../siteJob.ts';
import { chance, sleep, type Clients } from './clients.ts';

/** What somebody was told is done. */
export const ACKNOWLEDGED = ['held', 'booked', 'signed', 'paid', 'entry', 'photo', 'callback'] as const;
export type Acknowledged = Record<(typeof ACKNOWLEDGED)[number], string[]>;

type Papers = { jobId: string; link: string; invoiceId: string };
type OnSite = { record: MemberRecord; who: CastName; steps: SiteStep[] };
export type Prepared = { papers: Papers[]; sites: OnSite[]; visited: SiteJob };

const PAPERS = 25;
const DAY = 86_400_000;

/** Jobs with papers to sign and pay, two visits under way, and one that is over. Needs a running service. */
export async function prepare(service: TestService, clients: Clients): Promise<Prepared> {
  const { read } = service.database;
  // Links stand in mails only until they are sent.
  await read.rows(`UPDATE mail_settings SET paused_at = now(), paused_by = $1::uuid, pause_reason = 'later' RETURNING 1`, [CAST.office.id]);
  const api = { ...service, send: clients.send } as unknown as TestApi;
  const papers: Papers[] = [];
  for (let n = 0; n < PAPERS; n++) {
    const { jobId } = await paidJob(service, { startsAt: new Date(Date.now() + (200 + n) * DAY) });
    papers.push({ jobId, ...(await issuePapers(service, clients, jobId)) });
  }
  await read.rows(`UPDATE mail_settings SET paused_at = NULL, paused_by = NULL, pause_reason = NULL RETURNING 1`);
  const sites: OnSite[] = [];
  for (const pair of [
    ['anna', 'ben'],
    ['cora', 'dan'],
  ] as [CastName, CastName][]) {
    const { visitId } = await siteJob(service, { pair });
    const id = await start(api, visitId, pair[0]);
    for (const [at, who] of pair.entries()) {
      const record = (await clients.send(who, 'GET', `/api/records/${id}`)).body as MemberRecord;
      sites.push({ record, who, steps: record.steps.filter((s) => !s.partnerCheck && s.position % 2 === at) });
    }
  }
  const visited = await siteJob(service, { startsAt: new Date(Date.now() - 30 * DAY), pair: ['lead', 'lead2'] });
  await read.rows(`UPDATE visit SET state = 'done' WHERE id = $1::uuid RETURNING 1`, [visited.visitId]);
  return { papers, sites, visited };
}

async function issuePapers({ database }: TestService, clients: Clients, jobId: string): Promise<Omit<Papers, 'jobId'>> {
  expect((await clients.send('office', 'POST', `/api/jobs/${jobId}/agreement`, { body: {} })).status).toBe(201);
  const { invoiceId } = (await clients.send('office', 'POST', `/api/jobs/${jobId}/invoices`, { body: {} })).body;
  const [mail] = await database.read.rows<{ body: string }>(
    `SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND subject LIKE 'Agreement for%' ORDER BY id DESC LIMIT 1`,
    [jobId],
  );
  return { invoiceId, link: /\/client\/[\w-]{43}/.exec(mail!.body)![0] };
}

/** Starts `many` people who work until they are told to stop; then what each has begun is brought to its end. */
export function startLoad(clients: Clients, prepared: Prepared, { many, seed }: { many: number; seed: number }) {
  const told = Object.fromEntries(ACKNOWLEDGED.map((kind) => [kind, [] as string[]])) as Acknowledged;
  const refused: Record<string, number> = {};
  let over = false;
  const note = (kind: keyof Acknowledged, id: string, reply: { status: number; body: any }): boolean => {
    const yes = reply.status < 400;
    if (yes) told[kind].push(id);
    else refused[`${kind}: ${reply.body?.code ?? reply.status}`] = (refused[`${kind}: ${reply.body?.code ?? reply.status}`] ?? 0) + 1;
    return yes;
  };
  const parts = { clients, prepared, note };
  const work = async (random: () => number) => {
    while (!over) {
      const which = WORK[Math.floor(random() * WORK.length)]!;
      await which(parts, random);
    }
  };
  const failed: unknown[] = [];
  const all = Array.from({ length: many }, (_, n) =>
    work(chance(seed + n)).catch((error) => {
      failed.push(error);
      over = true;
    }),
  );
  const sofar = () => Object.values(told).flat().length;
  return {
    told,
    refused,
    /** Waits until so many more were told yes: whatever broke before is mended then, however slow the machine. */
    more: async (many: number) => {
      const [from, begun] = [sofar(), performance.now()];
      while (sofar() < from + many && !over && performance.now() - begun < 30_000) await sleep(20);
    },
    stop: async () => {
      over = true;
      await Promise.all(all);
      if (failed.length > 0) throw failed[0];
    },
  };
}

type Parts = {
  clients: Clients;
  prepared: Prepared;
  note: (kind: keyof Acknowledged, id: string, reply: { status: number; body: unknown }) => boolean;
};

async function book({ clients, note }: Parts, random: () => number): Promise<void> {
  const fromDay = DateTime.now()
    .plus({ days: 2 + Math.floor(random() * 60) })
    .toISODate();
  const ask = { place: PLACE, facts: FACTS, services: ['inspection'], fromDay, days: 3, limit: 20 };
  const { options } = (await clients.send('office', 'POST', '/api/starts', { body: ask })).body;
  const option = options?.[Math.floor(random() * options.length)];
  if (!option) return;
  const body = holdBody(option);
  if (note('held', body.id, await clients.send('office', 'POST', '/api/jobs', { body })))
    note('booked', body.id, await clients.send('office', 'POST', `/api/jobs/${body.id}/confirmation`));
}

async function sign({ clients, prepared, note }: Parts): Promise<void> {
  const one = prepared.papers.pop();
  if (!one) return;
  const { agreement } = (await clients.send('office', 'GET', `/api/jobs/${one.jobId}/agreement`)).body;
  const [signer] = agreement.signers;
  const fields = { name: signer.name, read: 'yes', consent: 'yes', sha256: agreement.sha256, word: signer.word };
  const reply = await clients.form(one.link, fields);
  // Whoever was not answered and signs again is told that it is signed already; that is no second yes.
  if (reply.status === 303 || reply.tries === 1) note('signed', one.jobId, reply);
}

async function pay({ clients, prepared, note }: Parts, random: () => number): Promise<void> {
  const one = prepared.papers[Math.floor(random() * prepared.papers.length)];
  if (!one) return;
  const id = randomUUID();
  const receivedOn = DateTime.now().setZone('America/Chicago').toISODate();
  const body = { id, method: 'check', reference: `${Math.floor(random() * 10_000)}`, cents: 100, receivedOn };
  note('paid', id, await clients.send('office', 'POST', `/api/invoices/${one.invoiceId}/payments`, { body }));
}

async function record({ clients, prepared, note }: Parts, random: () => number): Promise<void> {
  const site = prepared.sites[Math.floor(random() * prepared.sites.length)]!;
  const step = site.steps.pop();
  if (!step) return;
  const photo = randomUUID();
  const entry = answer(step, site.who, { photos: [photo], observedAt: new Date().toISOString() });
  const at = `/api/records/${site.record.id}`;
  const { status, body } = await clients.send(site.who, 'POST', `${at}/entries`, { body: { entries: [entry] } });
  const stored = body.results?.[0]?.stored === true;
  if (!note('entry', entry.id, stored ? { status, body } : { status: 409, body: body.results?.[0]?.problem ?? body })) return;
  const original = await picture('jpeg', Math.floor(random() * 1e6), 400, 300);
  const sent = {
    id: photo,
    entryId: entry.id,
    original: original.toString('base64'),
    takenAt: new Date().toISOString(),
    name: 'IMG_1.jpg',
  };
  note('photo', photo, await clients.send(site.who, 'POST', `${at}/photos`, { body: sent }));
}

async function complain({ clients, prepared, note }: Parts, random: () => number): Promise<void> {
  const body = intake(prepared.visited, { words: `The receptacle number ${Math.floor(random() * 1e6)} has no power.` });
  note('callback', body.id, await clients.send('office', 'POST', '/api/callbacks', { body }));
}

const WORK: ((parts: Parts, random: () => number) => Promise<void>)[] = [book, book, sign, pay, pay, record, record, record, complain];
