// One callback through every stage of ISO 10002:2018, clause 8 (numbers from memory), and every element of ISO 9001:2015, 10.2, by the API alone.
// The table of DEVELOPERS.md says where each of them has its place.
import { randomUUID } from 'node:crypto';
import { beforeAll, expect, it } from 'vitest';
import { CAST, type CastName } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { intake, visited, type Visited } from './support.ts';

const api = testApi();
withStarter(api);
let job: Visited;
beforeAll(async () => {
  job = await visited(api);
});

const DAY = 86_400_000;
const later = (days: number) => void (api.clock.now = new Date(api.clock.now.getTime() + days * DAY));
const get = async (who: CastName, path: string) => {
  const answer = await api.send(who, 'GET', path);
  expect(answer.status, `${path} ${JSON.stringify(answer.body)}`).toBe(200);
  return answer.body;
};
const post = async (who: CastName, path: string, body: unknown = {}) => {
  const answer = await api.send(who, 'POST', path, { body });
  expect(answer.status, `${path} ${JSON.stringify(answer.body)}`).toBe(201);
  return answer.body;
};
const letter = async (who: CastName, id: string, name: string) => {
  const { way, subject, body } = await get(who, `/api/callbacks/${id}/letter-drafts/${name}`);
  await post(who, `/api/callbacks/${id}/letters/${name}`, { way, subject, body });
};

it('communicates the process, receives, tracks, acknowledges, assesses, looks into it, responds, tells the decision, closes, and learns', async () => {
  const id = randomUUID();
  const act = (who: CastName, what: string, body: unknown = {}) => post(who, `/api/callbacks/${id}/${what}`, body);
  const state = async () => (await get('lead', `/api/callbacks/${id}`)).state;

  // ISO 10002, 8.1: the process is communicated, to anybody.
  const process = await api.app().inject({ method: 'GET', url: '/complaints' });
  expect(process.body).toContain('What happens then, and when');

  // 8.2: received, with a number of its own and the remedy that is sought.
  const { number } = await post('office', '/api/callbacks', { ...intake(job), id });
  expect(await get('office', `/api/callbacks/${id}`)).toMatchObject({ number, remedySought: 'the thawed food', state: 'received' });

  // 8.3: tracked; how far it is can be asked at any time.
  expect((await get('office', '/api/callbacks')).items.find((one: { id: string }) => one.id === id).clock.clock).toBe('acknowledge');

  // 8.4: acknowledged at once, in writing by the service, and by a person who spoke with the one who called.
  expect((await get('office', `/api/callbacks/${id}/letters`))[0]).toMatchObject({ letter: 'acknowledgement', way: 'mail' });
  await act('office', 'acknowledge', { words: 'Spoken with; asked to leave it as it is.' });

  // 8.5: first assessment: how grave, whether something is needed at once, who looks into it.
  // ISO 9001, 10.2.1 a: reacted to and contained: nothing is repaired before it was seen.
  await act('office', 'look-into', { severity: 'loss', atOnce: true, assigneeId: CAST.lead.id, words: 'Food moved to a cooler.' });
  await letter('office', id, 'access');

  // 8.6: looked into, with what was recorded beside what the report said. ISO 9001, 10.2.1 b: its cause is found.
  expect((await get('lead', `/api/callbacks/${id}/evidence`)).steps.length).toBeGreaterThan(10);
  await act('lead', 'conclusion', {
    conclusionId: randomUUID(),
    cause: 'not_in_procedure',
    stepKey: 'ground-fault-trip-reset',
    words: 'No power check of the receptacles downstream.',
  });

  // 8.7: responded to: what the firm does, within its limits, and cleared before money leaves.
  const remedyId = randomUUID();
  await act('owner', 'remedies', { remedyId, kind: 'goodwill_payment', cents: 12_000, payee: 'Paula Prior', words: 'Food' });
  await act('owner', 'clearance', { kind: 'owner_reason', words: 'Far below the deductible' });

  // 8.8: the decision is told, with how to appeal it (ISO/IEC 17025:2017, 7.9).
  await letter('office', id, 'decision');
  expect((await get('office', `/api/callbacks/${id}/after`)).appealUntil).toBe('2026-06-11');
  await post('owner', `/api/remedies/${remedyId}/payment`, { paidOn: '2026-05-12' });

  // 8.9: closed and told so; asked after 30 days whether it held.
  await act('lead', 'close');
  await letter('office', id, 'closing');
  expect(await state()).toBe('closed');
  later(31);
  await act('lead', 'checks', { outcome: 'held', words: 'All is well.' });
  expect((await get('owner', `/api/callbacks/${id}/after`)).checks).toMatchObject([{ outcome: 'held' }]);

  await learns(id);
}, 60_000);

/** ISO 9001, 10.2.1 b to f and 10.2.2. */
async function learns(id: string): Promise<void> {
  const actionId = randomUUID();
  const of = (what: string) => `/api/corrective-actions/${actionId}/${what}`;
  await post('lead', '/api/corrective-actions', {
    ...{ id: actionId, kind: 'training', title: 'Count live receptacles before and after', why: 'A reset proves no power downstream.' },
    ...{ ownerId: CAST.anna.id, dueOn: '2026-07-10', reviewOn: '2026-10-12', reviewerId: CAST.owner.id, callbackIds: [id] },
  });
  // b: looked for the same elsewhere.
  expect(await get('lead', of('elsewhere'))).toMatchObject({ steps: [{ title: expect.any(String) }] });
  // c: acted.
  await post('anna', of('end'), {
    outcome: 'done',
    what: 'Shown on a panel.',
    doneOn: '2026-06-12',
    attendees: [CAST.anna.id, CAST.ben.id],
    kit: '',
  });
  // d: whether it worked is looked at, with the figures of then; too early is an answer.
  later(122);
  expect((await get('owner', of('effect'))).steps).toHaveLength(1);
  await post('owner', of('review'), { result: 'too_early', words: 'No job is old enough.', nextOn: '2026-12-12' });
  // e and f: risks and opportunities, and the system: what the firm owes, step by step, follows of itself.
  expect((await get('owner', '/api/liability')).money.ever.incurredCents).toBe(12_000);
  // 10.2.2: nature, actions and results are kept.
  const kinds = (await get('owner', `/api/callbacks/${id}`)).events.map(({ kind }: { kind: string }) => kind);
  for (const kind of [
    'received',
    'acknowledged',
    'looking_into',
    'letter',
    'concluded',
    'remedy_agreed',
    'cleared',
    'paid',
    'closed',
    'checked',
  ])
    expect(kinds).toContain(kind);
  expect((await get('owner', `/api/corrective-actions/${actionId}`)).events.map(({ kind }: { kind: string }) => kind)).toEqual(
    expect.arrayContaining(['decided', 'done', 'reviewed']),
  );
}
