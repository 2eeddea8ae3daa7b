// The desk over HTTP: asking for starts, holding and confirming, and looking at who comes.
import { expect } from 'vitest';
import { FACTS, holdBody, PLACE } from './booking.ts';
import type { TestApi } from './http.ts';

/** What the office does again and again in the tests, through the API of a test. */
export function deskOf(api: TestApi) {
  const starts = async (more: object = {}) => {
    const ask = { place: PLACE, facts: FACTS, services: ['inspection'], fromDay: '2026-05-13', days: 5, limit: 60, ...more };
    const answer = await api.send('office', 'POST', '/api/starts', { body: ask, once: true });
    expect(answer.status, JSON.stringify(answer.body)).toBe(200);
    return answer.body;
  };
  const job = async (id: string) => (await api.send('office', 'GET', `/api/jobs/${id}`)).body;
  const crew = async (id: string) => {
    const a = await api.send('office', 'GET', `/api/jobs/${id}/crew`);
    if (a.status !== 200) throw new Error(JSON.stringify(a.body));
    return a.body;
  };
  const mails = (like: string) =>
    api.database.read.rows<{ to: string; body: string }>(
      'SELECT to_address AS "to", body FROM outgoing_mail WHERE message_key LIKE $1 ORDER BY to_address',
      [like],
    );

  async function held(more: Parameters<typeof holdBody>[1] = {}, ask: object = {}) {
    const { options } = await starts(ask);
    const answer = await api.send('office', 'POST', '/api/jobs', { body: holdBody(options[0], more) });
    expect(answer.status, JSON.stringify(answer.body)).toBe(201);
    return answer.body;
  }

  async function booked(more: Parameters<typeof holdBody>[1] = {}, ask: object = {}) {
    const one = await held(more, ask);
    const answer = await api.send('office', 'POST', `/api/jobs/${one.id}/confirmation`);
    expect(answer.status, JSON.stringify(answer.body)).toBe(201);
    return one;
  }
  return { starts, job, crew, mails, held, booked };
}
