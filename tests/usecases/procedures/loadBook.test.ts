// The procedure book in the records: loaded whole, in force from its instant, and fixed by the database.
import { beforeAll, describe, expect, it } from 'vitest';
import { brokenRule } from '@backsight/store/constraint';
import { missingAcknowledgements } from '@backsight/store/procedures';
import { openPeriods, saveSteps } from '@backsight/store/procedures/save';
import { revisionsInForce } from '@backsight/usecases/procedures/steps/inForce';
import { loadBook, type LoadedProcedure } from '@backsight/usecases/procedures/steps/loadBook';
import { PROCEDURES } from '../../../prisma/seed/procedures/book.ts';
import { CAST, withCast } from '../../support/cast.ts';
import { testService } from '../../support/database.ts';

const service = testService();
withCast(service);

const FROM = new Date('2026-02-02T06:00:00Z');
let loaded: LoadedProcedure[];

beforeAll(async () => {
  loaded = await service.database.transaction((tx) =>
    loadBook(tx, {
      procedures: PROCEDURES,
      authorId: CAST.lead.id,
      approverId: CAST.owner.id,
      inForceFrom: FROM,
      at: FROM,
      newId: service.newId,
    }),
  );
});

describe('a loaded book', () => {
  it('is in force with the same steps in the same order, inside a transaction and outside', async () => {
    const wanted = PROCEDURES.map(({ key, title, system, steps }) => ({
      procedureKey: key,
      title,
      system,
      number: 1,
      inForceFrom: FROM,
      acknowledgeBy: FROM,
      steps,
    }));
    expect(await revisionsInForce(service.database.read, FROM)).toMatchObject(JSON.parse(JSON.stringify(wanted), revive));
    const inside = await service.database.transaction((tx) => revisionsInForce(tx, FROM));
    expect(inside).toEqual(await revisionsInForce(service.database.read, FROM));
  });
  it('is not in force a moment before', async () => {
    expect(await revisionsInForce(service.database.read, new Date(FROM.getTime() - 1))).toEqual([]);
  });
  it('asks nobody to acknowledge a first revision', async () => {
    expect(await missingAcknowledgements(service.database.read, service.clock.now)).toEqual([]);
  });
  it('cannot be loaded twice', async () => {
    const again = service.database.transaction((tx) =>
      loadBook(tx, {
        procedures: PROCEDURES,
        authorId: CAST.lead.id,
        approverId: CAST.owner.id,
        inForceFrom: FROM,
        at: FROM,
        newId: service.newId,
      }),
    );
    expect(brokenRule(await again.catch((error: unknown) => error))).toBeDefined();
  });
});

describe('the database', () => {
  const refused = async (work: Promise<unknown>) =>
    brokenRule(
      await work.then(
        () => undefined,
        (error: unknown) => error,
      ),
    );
  it('takes no step more into an approved revision', async () => {
    const { revisionId } = loaded[0]!;
    const step = { ...PROCEDURES[1]!.steps[0]! };
    expect(await refused(service.database.transaction((tx) => saveSteps(tx, [{ revisionId, steps: [step] }])))).toBe('revision_immutable');
  });
  it('refuses a second period at the same time', async () => {
    const { procedureId, revisionId } = loaded[0]!;
    const period = { id: service.newId(), procedureId, revisionId, fromAt: new Date('2026-03-01T06:00:00Z') };
    expect(await refused(service.database.transaction((tx) => openPeriods(tx, [period])))).toMatch(
      /one_revision_in_force|in_force_period_revision_id_key/,
    );
  });
  it('refuses an author who approves the own revision', async () => {
    const procedures = [{ ...PROCEDURES[0]!, key: 'again', steps: [{ ...PROCEDURES[0]!.steps[0]!, key: 'again-one' }] }];
    const alone = service.database.transaction((tx) =>
      loadBook(tx, { procedures, authorId: CAST.lead.id, approverId: CAST.lead.id, inForceFrom: FROM, at: FROM, newId: service.newId }),
    );
    expect(await refused(alone)).toBe('revision_second_person');
  });
});

const revive = (key: string, value: unknown): unknown =>
  key === 'inForceFrom' || key === 'acknowledgeBy' ? new Date(String(value)) : value;
