// Travels in time and looks at clocks, homes, mails and events of callbacks, as far as a test needs it.
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { expect } from 'vitest';
import { rebuildCallback } from '@backsight/domain/callbacks/rebuild';
import { eventsOf, findCallback } from '@backsight/store/callbacks';
import type { CastName } from '../../support/cast.ts';
import type { TestApi } from '../../support/http.ts';

type Mail = { to: string; key: string; urgent: boolean; body: string };

export function clockTools(api: TestApi) {
  const at = (iso: string): void => void (api.clock.now = new Date(iso));
  const later = (minutes: number): void => at(new Date(api.clock.now.getTime() + minutes * 60_000).toISOString());
  const clocksOf = async (id: string, who: CastName = 'owner') => (await api.send(who, 'GET', `/api/callbacks/${id}/clocks`)).body;
  const clockOf = async (id: string, clock: string) => (await clocksOf(id)).clocks.find((one: { clock: string }) => one.clock === clock);
  /** Ids of the things of one list of the home. */
  const home = async (who: CastName, key: string): Promise<string[]> =>
    (await api.send(who, 'GET', `/api/home?list=${key}`)).body.lists.flatMap((list: { items: { thing: { id: string } }[] }) =>
      list.items.map(({ thing }) => thing.id),
    );
  const mailsAbout = (id: string): Promise<Mail[]> =>
    api.database.read.rows<Mail>(
      `SELECT to_name AS to, message_key AS key, urgent, body FROM outgoing_mail WHERE about_id = $1::uuid ORDER BY recorded_at, id`,
      [id],
    );
  /** First names of those who were alerted of a danger, in order. */
  const alerts = async (id: string): Promise<string[]> =>
    (await mailsAbout(id)).filter(({ key }) => key.startsWith('danger:')).map(({ to }) => to.split(' ')[0]!);
  /** The row is what its events tell. */
  const rebuilt = async (id: string): Promise<void> => {
    const { id: _, ...row } = (await findCallback(api.database.read, id))!;
    expect(rebuildCallback(await eventsOf(api.database.read, id))).toEqual(JSON.parse(JSON.stringify(row)));
  };
  /** Past every rule of the program: a second pause while one is open. */
  const twoPauses = (id: string): Promise<void> =>
    api.database.transaction(async (tx) => {
      const { untilAt: _, ...open } = (await tx.db.callbackPause.findFirst({ where: { callbackId: id } }))!;
      await tx.db.callbackPause.create({ data: { ...open, id: randomUUID() } });
    });
  return { at, later, clocksOf, clockOf, home, mailsAbout, alerts, rebuilt, twoPauses };
}

/** A line of the on-call list as it is sent: every night from 5 PM to 8 AM. */
export const duty = (personId: string, more: object = {}) => ({
  body: {
    ...{ id: randomUUID(), personId, on: true, position: 1, weekdays: [1, 2, 3, 4, 5, 6, 7], startMinute: 1020, endMinute: 480 },
    ...{ fromDay: '2026-05-01', untilDay: null, ...more },
  },
});

/** Does something while no mail can be written, as if the power failed between a row and its mail. */
export async function whileMailFails(api: TestApi, act: () => Promise<void>): Promise<void> {
  const owner = new pg.Client(api.url);
  await owner.connect();
  await owner.query(`CREATE FUNCTION no_mail() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION 'the power failed'; END $$`);
  await owner.query('CREATE TRIGGER no_mail BEFORE INSERT ON outgoing_mail FOR EACH ROW EXECUTE FUNCTION no_mail()');
  try {
    await act();
  } finally {
    await owner.query('DROP TRIGGER no_mail ON outgoing_mail');
    await owner.end();
  }
}
