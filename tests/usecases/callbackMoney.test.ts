// Money of callbacks under two hands at once, and what the database itself refuses.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { saveEntry } from '@backsight/store/fees';
import { brokenRule } from '@backsight/store/constraint';
import { moneyOf } from '@backsight/store/callbacks/money';
import { findCallback } from '@backsight/store/callbacks';
import { setReserve, recordClearance } from '@backsight/usecases/callbacks/callbackMoney';
import { concludeCallback } from '@backsight/usecases/callbacks/concludeCallback';
import { acknowledgeCallback } from '@backsight/usecases/callbacks/moveCallback';
import { receiveCallback } from '@backsight/usecases/callbacks/receiveCallback';
import { payRemedy } from '@backsight/usecases/callbacks/carryOut';
import { proposeRemedy } from '@backsight/usecases/callbacks/remedies';
import { as, CAST, withCast } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const service = testService();
withCast(service);
withStarter(service);
let jobId: string;
beforeAll(async () => {
  ({ jobId } = await bookedVisit(service, {
    startsAt: '2026-05-04T14:00:00Z',
    endsAt: '2026-05-04T17:00:00Z',
    first: CAST.anna.id,
    second: CAST.ben.id,
    state: 'done',
  }));
});

const run = async (act: Parameters<typeof service.runner.run>[0], input: object): Promise<void> => {
  const outcome = await service.runner.run(act as never, input as never, { actor: as('owner') });
  expect(outcome.ok, JSON.stringify(outcome)).toBe(true);
};

async function callback(reserve: number, cleared: boolean): Promise<string> {
  const id = randomUUID();
  await run(receiveCallback as never, {
    id,
    jobId,
    speaker: 'seller',
    kind: 'damage_or_injury',
    safety: false,
    system: 'electrical',
    place: 'garage',
    remedySought: '',
    words: 'Freezer thawed',
  });
  await run(acknowledgeCallback as never, { id });
  await run(concludeCallback as never, { id, conclusionId: randomUUID(), cause: 'damaged_on_visit' });
  await run(setReserve as never, { id, cents: reserve, words: 'Food' });
  if (cleared) await run(recordClearance as never, { id, kind: 'owner_reason', words: 'Below the deductible' });
  return id;
}

async function remedy(id: string, cents: number): Promise<string> {
  const remedyId = randomUUID();
  await run(proposeRemedy as never, { id, remedyId, kind: 'goodwill_payment', cents, payee: 'S. Seller' });
  return remedyId;
}

describe('two payments at once', () => {
  it('never take more out of what is set aside than is there', async () => {
    const id = await callback(10_000, true);
    const remedies = [await remedy(id, 8_000), await remedy(id, 7_000), await remedy(id, 6_000)];
    const paid = await Promise.all(
      remedies.map((remedyId) => service.runner.run(payRemedy, { remedyId, paidOn: '2026-05-12' }, { actor: as('owner') })),
    );
    expect(paid.map((p) => p.ok)).toEqual([true, true, true]);
    expect(await moneyOf(service.database.read, id)).toEqual({
      paidCents: 21_000,
      reservedCents: 0,
      recoveredCents: 0,
      incurredCents: 21_000,
    });
  });
  it('pay one remedy once', async () => {
    const id = await callback(5_000, true);
    const remedyId = await remedy(id, 5_000);
    const paid = await Promise.all(
      [1, 2, 3, 4].map(() => service.runner.run(payRemedy, { remedyId, paidOn: '2026-05-12' }, { actor: as('owner') })),
    );
    expect(paid.filter((p) => p.ok)).toHaveLength(1);
    expect((await moneyOf(service.database.read, id)).paidCents).toBe(5_000);
  });
  it('lose no event when two act at once', async () => {
    const id = await callback(5_000, true);
    const before = (await findCallback(service.database.read, id))!.version;
    await Promise.all(
      [1, 2, 3, 4, 5].map((n) => service.runner.run(setReserve, { id, cents: 5_000 + n, words: `${n}` }, { actor: as('owner') })),
    );
    expect((await findCallback(service.database.read, id))!.version).toBe(before + 5);
  });
});

describe('the database itself', () => {
  const post = (
    id: string,
    kind: 'callback_payment' | 'reserve_change',
    lines: { account: 'callback-cost' | 'callback-reserve' | 'bank'; cents: number }[],
  ) =>
    service.database
      .transaction((tx) =>
        saveEntry(tx, {
          id: randomUUID(),
          kind,
          happenedOn: '2026-05-12',
          memo: 'x',
          actorId: null,
          at: service.clock.now,
          lines: lines.map((line) => ({ ...line, callbackId: id, jobId })),
        }),
      )
      .then(
        () => null,
        (error) => brokenRule(error),
      );
  it('refuses a payment without clearance', async () => {
    const id = await callback(5_000, false);
    expect(
      await post(id, 'callback_payment', [
        { account: 'callback-reserve', cents: 100 },
        { account: 'bank', cents: -100 },
      ]),
    ).toBe('payment_needs_clearance');
    expect(
      await service.runner.run(payRemedy, { remedyId: await remedy(id, 100), paidOn: '2026-05-12' }, { actor: as('owner') }),
    ).toMatchObject({ ok: false, code: 'payment-needs-clearance' });
  });
  it('refuses to take the reserve below nothing, and lets a sound entry through', async () => {
    const id = await callback(5_000, true);
    expect(
      await post(id, 'reserve_change', [
        { account: 'callback-cost', cents: -6_000 },
        { account: 'callback-reserve', cents: 6_000 },
      ]),
    ).toBe('reserve_not_negative');
    expect(
      await post(id, 'callback_payment', [
        { account: 'callback-reserve', cents: 5_000 },
        { account: 'bank', cents: -5_000 },
      ]),
    ).toBe(null);
  });
});
