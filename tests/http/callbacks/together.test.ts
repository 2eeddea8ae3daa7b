// Tag: time, any day.
// Two and more people at one callback at once, over HTTP on a real PostgreSQL: no act is lost without a reason, no event without its number.
import { randomUUID } from 'node:crypto';
import { beforeAll, expect, it } from 'vitest';
import { moveTo, type Move } from '@backsight/domain/callbacks/state';
import type { State } from '@backsight/domain/callbacks/words';
import { rebuildCallback } from '@backsight/domain/callbacks/rebuild';
import { eventsOf, findCallback } from '@backsight/store/callbacks';
import { CAST, type CastName } from '../../support/cast.ts';
import { testApi, type Answer } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { received, visited, type Visited } from './support.ts';

const api = testApi();
withStarter(api);
let job: Visited;
beforeAll(async () => {
  job = await visited(api);
});

type Ask = { who: CastName; act: string; body?: object; version?: number };
const send = (id: string, { who, act, body = {}, version }: Ask): Promise<Answer> =>
  api.send(who, 'POST', `/api/callbacks/${id}/${act}`, { body, once: true, ...(version === undefined ? {} : { version }) });

/** Which move an event is, where it is one. */
const MOVE_OF: Record<string, Move> = {
  acknowledged: 'acknowledge',
  looking_into: 'look_into',
  concluded: 'conclude',
  closed: 'close',
  reopened: 'reopen',
};

async function historyOf(id: string) {
  const events = await eventsOf(api.database.read, id);
  const { id: _, ...row } = (await findCallback(api.database.read, id))!;
  expect(events.map(({ seq }) => seq)).toEqual(events.map((_event, n) => n + 1));
  expect(row.version).toBe(events.length);
  const told = rebuildCallback(events.map(({ seq, kind, state, details, words }) => ({ seq, kind, state, details, words })));
  expect(told).toEqual(JSON.parse(JSON.stringify(row)));
  let state: State = 'received';
  for (const event of events.slice(1)) {
    const move = MOVE_OF[event.kind];
    const next = move ? moveTo({ state, kind: row.kind }, move) : { ok: true as const, value: state };
    expect(next, `${event.seq} ${event.kind} from ${state}`).toMatchObject({ ok: true, value: event.state });
    state = event.state;
  }
  return events;
}

it('numbers every event of forty acts at once, moves only along its way, and says of every other act why not', async () => {
  const id = await received(api, job);
  for (const who of ['office', 'lead', 'lead2', 'owner', 'second'] as const) await api.send(who, 'GET', '/api/session');
  const looking = (assigneeId: string) => ({ severity: 'loss', atOnce: false, assigneeId });
  const concluding = () => ({ conclusionId: randomUUID(), cause: 'nothing_shown', words: 'Nothing was found.' });
  const asks: Ask[] = [
    ...Array.from({ length: 12 }, (_, n) => ({ who: n % 2 ? 'office' : 'lead', act: 'notes', body: { words: `Note ${n}` } }) as Ask),
    ...(['office', 'lead', 'lead2', 'owner'] as const).map((who) => ({ who, act: 'acknowledge' })),
    ...(['office', 'lead', 'owner', 'second'] as const).map((who) => ({ who, act: 'look-into', body: looking(CAST.lead.id) })),
    ...(['lead', 'lead2', 'owner', 'second', 'lead', 'owner'] as const).map((who) => ({ who, act: 'conclusion', body: concluding() })),
    ...(['lead', 'owner', 'second', 'lead2', 'office', 'lead'] as const).map((who) => ({ who, act: 'close' })),
    ...(['office', 'owner', 'lead', 'second'] as const).map((who) => ({ who, act: 'reopen', body: { words: 'Once more.' } })),
    ...(['lead', 'owner', 'second', 'lead2'] as const).map((who, n) => ({
      who,
      act: 'reserve',
      body: { cents: 1000 * (n + 1), words: 'Set aside' },
    })),
  ];
  const answers = await Promise.all(asks.map((ask) => send(id, ask)));
  const taken = answers.filter(({ status }) => status === 201);
  const refused = answers.filter(({ status }) => status !== 201);
  const events = await historyOf(id);
  expect(events.length - 1).toBe(taken.length);
  expect(new Set(taken.map(({ body }) => body.version)).size).toBe(taken.length);
  for (const { status, body } of refused) expect([status, body.title.length > 10], JSON.stringify(body)).toEqual([409, true]);
  expect(
    events
      .filter(({ kind }) => kind === 'note')
      .map(({ words }) => words)
      .sort(),
  ).toEqual(Array.from({ length: 12 }, (_, n) => `Note ${n}`).sort());
  const heard = events.filter(({ kind }) => kind === 'acknowledged' || kind === 'looking_into');
  expect(heard.filter(({ kind }) => kind === 'acknowledged').length, 'who looks into it first has heard it').toBeLessThanOrEqual(1);
  expect(heard.length).toBeGreaterThanOrEqual(1);
});

it("takes one of five acts on the page as it was, names who changed it to the others, and stands in nobody's own way", async () => {
  const id = await received(api, job);
  const people: CastName[] = ['office', 'lead', 'lead2', 'owner', 'second'];
  const answers = await Promise.all(
    people.map((who) =>
      send(id, { who, act: 'look-into', version: 1, body: { severity: 'nuisance', atOnce: false, assigneeId: CAST.lead.id } }),
    ),
  );
  expect(answers.map(({ status }) => status).sort()).toEqual([201, ...Array<number>(4).fill(409)]);
  for (const { body } of answers.filter(({ status }) => status === 409)) {
    expect(body).toMatchObject({ code: 'callback-changed', about: { what: 'looking into' } });
    expect(body.title).toMatch(
      /^(Otto Office|Lena Lead|Luis Lead|Olive Owner|Sam Secondowner) changed this callback meanwhile.*what you typed is still here/,
    );
  }
  const first = people[answers.findIndex(({ status }) => status === 201)]!;
  expect((await send(id, { who: first, act: 'notes', version: 1, body: { words: 'And one more thing.' } })).status).toBe(201);
  expect((await send(id, { who: 'office', act: 'acknowledge', version: 3 })).body.code).toBe('callback-state');
  await historyOf(id);
});

it('does not tell the office that money was set aside by calling its page changed', async () => {
  const id = await received(api, job);
  expect((await send(id, { who: 'lead', act: 'reserve', body: { cents: 5000, words: 'Food' } })).status).toBe(201);
  expect((await send(id, { who: 'office', act: 'acknowledge', version: 1 })).status).toBe(201);
  const lead = await send(id, { who: 'lead2', act: 'notes', version: 1, body: { words: 'x' } });
  expect(lead.body).toMatchObject({ code: 'callback-changed', about: { who: 'Otto Office', what: 'acknowledged' } });
});
