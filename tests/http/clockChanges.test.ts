// Tag: time.
// The firm on the days on which the clocks change: in the spring an hour is left out, in the autumn one comes twice. Second Sunday of
// March and first Sunday of November, 2 AM (15 U.S.C. 260a); instants counted by hand from the offsets of Central Time, -6 h and -5 h.
import ICAL from 'ical.js';
import { DateTime } from 'luxon';
import { beforeEach, describe, expect, it } from 'vitest';
import { rebuildFiguresAtNight } from '@backsight/usecases/liability/figures';
import { remindAll } from '@backsight/usecases/mail/remind';
import { figuresUntil } from '@backsight/store/liability/figures';
import { holdBody } from '../support/booking.ts';
import { CAST } from '../support/cast.ts';
import { deskOf } from '../support/desk.ts';
import { testApi } from '../support/http.ts';
import { flat, readPdf } from '../support/pdf.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';
import { received, visited } from './callbacks/support.ts';

const api = testApi();
withStarter(api);
const desk = deskOf(api);
const ZONE = 'America/Chicago';
const HOUR = 3_600_000;

/** Midnights that begin the day and end it, and the instant at which the clocks change. */
const DAYS = [
  { day: '2027-03-14', from: '2027-03-14T06:00:00Z', changes: '2027-03-14T08:00:00Z', until: '2027-03-15T05:00:00Z', hours: 23 },
  { day: '2027-11-07', from: '2027-11-07T05:00:00Z', changes: '2027-11-07T07:00:00Z', until: '2027-11-08T06:00:00Z', hours: 25 },
  { day: '2028-03-12', from: '2028-03-12T06:00:00Z', changes: '2028-03-12T08:00:00Z', until: '2028-03-13T05:00:00Z', hours: 23 },
  { day: '2028-11-05', from: '2028-11-05T05:00:00Z', changes: '2028-11-05T07:00:00Z', until: '2028-11-06T06:00:00Z', hours: 25 },
];

describe.each(DAYS)('$day, a day of $hours hours', ({ day, from, changes, until, hours }) => {
  const spring = hours === 23;
  const plus = (at: string, minutes: number): string => new Date(Date.parse(at) + minutes * 60_000).toISOString();
  const wall = (at: string): string => DateTime.fromISO(at, { zone: ZONE }).toFormat('yyyy-MM-dd HH:mm');
  const monday = wall(plus(until, 1)).slice(0, 10);
  /** Offset of the office hours of the Monday after it. */
  const offset = spring ? '-05:00' : '-06:00';
  const remind = () =>
    remindAll({ database: api.database, runner: api.runner, clock: () => api.clock.now, publicUrl: 'https://firm.example' });
  beforeEach(() => {
    api.clock.now = new Date(plus(from, 60));
  });

  it('is the Sunday of the statute, as the time zone database has it', () => {
    expect((Date.parse(until) - Date.parse(from)) / HOUR).toBe(hours);
    expect([wall(from), wall(plus(until, -1)), wall(changes)]).toEqual([
      `${day} 00:00`,
      `${day} 23:59`,
      `${day} ${spring ? '03:00' : '01:00'}`,
    ]);
    const at = DateTime.fromISO(day, { zone: ZONE });
    expect([at.weekday, Math.ceil(at.day / 7)]).toEqual([7, spring ? 2 : 1]);
  });

  it('has its visits on the day sheet and in the calendar, from midnight to midnight, in the order in which they come', async () => {
    const spans: [string, string][] = [
      [plus(from, -45), plus(from, -15)], // the evening before
      [plus(from, 15), plus(from, 45)],
      [plus(changes, -30), plus(changes, 30)], // across the change
      [plus(until, -45), plus(until, -15)],
      [plus(until, 15), plus(until, 45)], // the night after
    ];
    for (const [startsAt, endsAt] of spans) await bookedVisit(api, { startsAt, endsAt, first: CAST.anna.id, second: CAST.ben.id });
    const sheet = await readPdf((await api.send('anna', 'GET', `/api/people/${CAST.anna.id}/day-sheet/${day}`)).bytes);
    expect(flat(sheet.pages.join(' ')).match(/\d+:\d\d [AP]M to \d+:\d\d [AP]M/g)).toEqual([
      '12:15 AM to 12:45 AM',
      spring ? '1:30 AM to 3:30 AM' : '1:30 AM to 1:30 AM',
      '11:15 PM to 11:45 PM',
    ]);
    const { address } = (await api.send('anna', 'PUT', '/api/me/calendar-feed')).body;
    const feed = await api.app().inject({ url: new URL(address).pathname });
    const events = new ICAL.Component(ICAL.parse(feed.body)).getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
    const told = events.map(({ startDate, endDate }) => [startDate.toJSDate().toISOString(), endDate.toJSDate().toISOString()]);
    expect(told).toEqual(expect.arrayContaining(spans));
  });

  it('lets a time that is held run for its minutes, however the clock on the wall moves', async () => {
    api.clock.now = new Date(plus(changes, -10));
    const held = await desk.held({}, { fromDay: monday, days: 5 });
    const [visit] = (await desk.job(held.id)).visits;
    expect(visit.holdEndsAt).toBe(plus(changes, 10));
  });

  it('changes no time of the mornings after it, and reminds of one once', async () => {
    api.clock.now = new Date(plus(from, -8 * 60)); // the Saturday before, by the clock of before
    const { options } = await desk.starts({ fromDay: monday, days: 1 });
    expect(options.map(({ startsAt }: { startsAt: string }) => wall(startsAt))).toContain(`${monday} 08:45`);
    const startsAt = new Date(`${monday}T09:00:00${offset}`).toISOString();
    const held = await api.send('office', 'POST', '/api/jobs', { body: holdBody({ startsAt, first: CAST.lead2.id, second: CAST.dan.id }) });
    expect(held.status, JSON.stringify(held.body)).toBe(201);
    const job = held.body;
    expect((await api.send('office', 'POST', `/api/jobs/${job.id}/confirmation`)).status).toBe(201);
    const [visit] = (await desk.job(job.id)).visits;
    expect([visit.startsAt, wall(visit.startsAt)]).toEqual([startsAt, `${monday} 09:00`]);
    const sent: string[] = [];
    for (let minutes = 0; minutes < hours * 60; minutes += 30) {
      api.clock.now = new Date(plus(from, minutes));
      await remind();
      const rows = await api.database.read.rows<{ body: string }>(
        `SELECT body FROM outgoing_mail WHERE kind = 'reminder_day_before' AND about_id = $1::uuid`,
        [job.id],
      );
      if (rows.length > sent.length) sent.push(`${wall(plus(from, minutes))} ${rows.at(-1)!.body}`);
    }
    expect(sent).toHaveLength(1);
    expect(sent[0]).toMatch(new RegExp(`^${day} 07:00 `));
    expect(sent[0]).toContain('9:00 AM');
  });

  it('counts the office hours of a callback alike, whenever on that Sunday it came in', async () => {
    api.clock.now = new Date(plus(from, -7 * 24 * 60));
    const job = await visited(api);
    const dues: string[] = [];
    for (const at of [plus(changes, -30), plus(changes, 30), plus(until, -30)]) {
      api.clock.now = new Date(at);
      const id = await received(api, job);
      const { clocks } = (await api.send('owner', 'GET', `/api/callbacks/${id}/clocks`)).body;
      dues.push(clocks.map((one: { clock: string; dueAt: string }) => `${one.clock} ${wall(one.dueAt).slice(11)}`).join(', '));
      expect(wall(clocks[0].dueAt).slice(0, 10)).toBe(monday);
    }
    expect(new Set(dues).size).toBe(1);
  });

  it('closes the sums of the day before at three in the morning by the clock on the wall, once', async () => {
    const at = async (minutes: number) => {
      api.clock.now = new Date(plus(changes, minutes));
      await rebuildFiguresAtNight({ database: api.database, clock: () => api.clock.now });
      return (await figuresUntil(api.database.read))?.toISOString();
    };
    await at(-48 * 60);
    const three = spring ? 0 : 120; // minutes after the change at which the clock shows 3:00
    expect(await at(three - 1)).not.toBe(new Date(from).toISOString());
    expect(await at(three + 1)).toBe(new Date(from).toISOString());
  });
});
