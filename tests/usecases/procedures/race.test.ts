// Two approvals at once: exactly one revision is in force at any instant, and the loser is told why.
import { beforeAll, describe, expect, it } from 'vitest';
import { saveDrafts, saveSteps } from '@backsight/store/procedures/save';
import { approveRevision } from '@backsight/usecases/procedures/approval';
import { changeDraft } from '@backsight/usecases/procedures/drafts';
import { revisionsInForce, type RevisionInForce } from '@backsight/usecases/procedures/steps/inForce';
import { as, CAST, withCast } from '../../support/cast.ts';
import { testService } from '../../support/database.ts';
import { withStarter } from '../../support/starter.ts';

const service = testService();
withCast(service);
withStarter(service);

let attic: RevisionInForce;
let roof: RevisionInForce;
beforeAll(async () => {
  const book = await revisionsInForce(service.database.read, service.clock.now);
  attic = book.find(({ procedureKey }) => procedureKey === 'attic')!;
  roof = book.find(({ procedureKey }) => procedureKey === 'roof')!;
});

/** Two drafts of one procedure, which no screen would let begin: each with another first step. */
const drafts = (of: RevisionInForce, ids: readonly string[]) =>
  service.database.transaction(async (tx) => {
    await saveDrafts(
      tx,
      ids.map((id, at) => ({
        id,
        procedureId: of.procedureId,
        number: 2 + at,
        reason: 'r',
        basedOnId: of.revisionId,
        authorId: CAST.lead.id,
        recordedAt: service.clock.now,
      })),
    );
    const [first, ...rest] = of.steps;
    await saveSteps(
      tx,
      ids.map((revisionId) => ({ revisionId, steps: [{ ...first!, why: `Because of ${revisionId}.` }, ...rest] })),
    );
  });
const approveIt = (id: string, who: 'owner' | 'second') =>
  service.runner.run(
    approveRevision,
    { id, version: 1, inForceFrom: null, acknowledgeBy: null, graceReason: null, publicUrl: 'http://test.example' },
    { actor: as(who) },
  );
const periods = (of: RevisionInForce) =>
  service.database.read.rows<{ open: boolean }>(
    'SELECT until_at IS NULL AS open FROM in_force_period WHERE procedure_id = $1::uuid ORDER BY from_at',
    [of.procedureId],
  );

describe('two approvals at once', () => {
  it('of two drafts: one wins, the other has to be compared with it first', async () => {
    const ids = ['00000000-0000-7000-8000-0000000b0001', '00000000-0000-7000-8000-0000000b0002'];
    await drafts(attic, ids);
    const outcomes = await Promise.all([approveIt(ids[0]!, 'owner'), approveIt(ids[1]!, 'second')]);
    expect(outcomes.map((one) => (one.ok ? 'ok' : one.code)).toSorted()).toEqual(['ok', 'revision-outdated']);
    expect(await periods(attic)).toEqual([{ open: false }, { open: true }]);
    const now = (await revisionsInForce(service.database.read, service.clock.now)).filter(
      ({ procedureId }) => procedureId === attic.procedureId,
    );
    expect(now.map(({ revisionId }) => revisionId)).toEqual(ids.filter((_, at) => outcomes[at]!.ok));
  });
  it('the loser is saved again over the winner, and then approved after it', async () => {
    const { rows } = service.database.read;
    const [left] = await rows<{ id: string }>(
      `SELECT id::text AS id FROM procedure_revision WHERE procedure_id = $1::uuid AND state = 'draft'`,
      [attic.procedureId],
    );
    const winner = (await revisionsInForce(service.database.read, service.clock.now)).find(
      ({ procedureId }) => procedureId === attic.procedureId,
    )!;
    const [first, ...rest] = winner.steps;
    const saved = await service.runner.run(
      changeDraft,
      { id: left!.id, version: 1, reason: 'r', basedOnId: winner.revisionId, steps: [{ ...first!, why: 'Both reasons.' }, ...rest] },
      { actor: as('lead') },
    );
    expect(saved.ok).toBe(true);
    service.clock.now = new Date(service.clock.now.getTime() + 60_000);
    const again = await service.runner.run(
      approveRevision,
      { id: left!.id, version: 2, inForceFrom: null, acknowledgeBy: null, graceReason: null, publicUrl: 'http://test.example' },
      { actor: as('owner') },
    );
    expect(again.ok).toBe(true);
    expect(await periods(attic)).toEqual([{ open: false }, { open: false }, { open: true }]);
  });
  it('of the same draft: one wins, the other is told that it is no draft any more', async () => {
    const ids = ['00000000-0000-7000-8000-0000000b0003'];
    await drafts(roof, ids);
    const outcomes = await Promise.all([approveIt(ids[0]!, 'owner'), approveIt(ids[0]!, 'second')]);
    expect(outcomes.map((one) => (one.ok ? 'ok' : one.code)).toSorted()).toEqual(['ok', 'revision-not-a-draft']);
    expect(await periods(roof)).toEqual([{ open: false }, { open: true }]);
  });
});
