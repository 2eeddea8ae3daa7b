// Plans in the tests of the API: instants of a day, waiting for an answer.
import { setTimeout as wait } from 'node:timers/promises';
import { expect } from 'vitest';
import type { TestApi } from './http.ts';

/** An hour of a day in Central daylight time. */
export const hourAt = (day: string, hour: number, minute = 0): string =>
  `${day}T${String(hour + 5).padStart(2, '0')}:${String(minute).padStart(2, '0')}:00.000Z`;

const TRIES = 400;

/** The plan at this address once it is no longer being made. */
export async function planEnded(api: TestApi, path: string) {
  for (let tries = 0; tries < TRIES; tries++) {
    const plan = await api.send('owner', 'GET', path);
    expect(plan.status, JSON.stringify(plan.body)).toBe(200);
    if (plan.body.state !== 'asked') return plan.body;
    await wait(50);
  }
  throw new Error('the plan did not end');
}
