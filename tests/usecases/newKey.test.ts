// Another key of the installation: every second factor opens with it afterwards, also where the change was cut off half-way.
import { describe, expect, it } from 'vitest';
import { factorSecrets, storeFactorSecret } from '@backsight/store/people/secondFactor';
import { takeNewKey } from '@backsight/usecases/people/newKey';
import { beginSecondFactor } from '@backsight/usecases/people/secondFactor';
import { openSecret, sealSecret } from '@backsight/usecases/people/steps/oneTimeCode';
import { as, CAST, PASSWORD, withCast } from '../support/cast.ts';
import { testService } from '../support/database.ts';

const service = testService();
withCast(service);
const [first, second, stranger] = [1, 2, 3].map((byte) => Buffer.alloc(32, byte)) as [Buffer, Buffer, Buffer];
const begin = (who: 'anna' | 'ben', secretKey: Buffer) =>
  service.runner.run(beginSecondFactor, { personId: CAST[who].id, password: PASSWORD, secretKey, issuer: 'Test' }, { actor: as(who) });
const opened = async (key: Buffer) =>
  (await factorSecrets(service.database.read)).map(({ personId, secret }) => openSecret(key, personId, secret)?.toString('hex') ?? null);
const take = (before: Buffer, after: Buffer) => service.runner.run(takeNewKey, { before, after }, { actor: { kind: 'service' } });

describe('a new key', () => {
  it('opens what the old one opened, and the old one opens nothing', async () => {
    for (const who of ['anna', 'ben'] as const) expect((await begin(who, first)).ok).toBe(true);
    const clear = await opened(first);
    expect(await take(first, second)).toMatchObject({ ok: true, value: { secrets: 2 } });
    expect([await opened(second), await opened(first)]).toEqual([clear, [null, null]]);
    expect(await take(first, second), 'once more does no harm').toMatchObject({ ok: true });
    expect(await opened(second)).toEqual(clear);
  });
  it('changes nothing where one secret opens with neither', async () => {
    const before = await opened(second);
    const lost = new Uint8Array(sealSecret(stranger, CAST.ben.id, Buffer.alloc(20, 5)));
    await service.database.transaction((tx) => storeFactorSecret(tx, CAST.ben.id, lost));
    expect(await take(second, first)).toMatchObject({ ok: false, code: 'factor-unreadable' });
    expect((await opened(second)).filter((one) => one !== null)).toEqual(before.filter((_, n) => n === 0));
  });
});
