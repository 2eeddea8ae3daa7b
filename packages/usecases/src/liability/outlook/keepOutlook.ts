// Keeping an outlook, because the owner says so, and removing it again.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { listOutlooks, removeOutlook, saveOutlook, type KeptOutlook } from '@backsight/store/liability/outlook';
import type { Reader } from '@backsight/store/database';
import type { Scenario } from '@backsight/domain/liability/outlook/scenario';
import { actorId } from '../../callbacks/steps/callback.ts';
import type { Act } from '../../run.ts';
import { readOutlook, type Asked } from './readOutlook.ts';

/** What is kept of the result: the figures, what they rest on, and over which time. */
type Kept = Pick<
  Extract<Awaited<ReturnType<typeof readOutlook>>, { ok: true }>['value'],
  'runs' | 'from' | 'until' | 'figures' | 'because' | 'assumptions' | 'cautions' | 'stepTitle'
>;

/** Figures it anew from the same seed and the same past, so that nothing but the service's own result is ever kept. Refusals: as readOutlook, outlook-name-taken. */
export const keepOutlook: Act<Asked & { id: string; name: string }, { id: string }> = {
  operation: 'liability.keep-outlook',
  run: async (work, { id, name, ...asked }): Promise<Outcome<{ id: string }>> => {
    const found = await readOutlook(work.tx, asked);
    if (!found.ok) return found;
    const { scenario, seed, runs, from, until, figures, because, assumptions, cautions, stepTitle } = found.value;
    const result: Kept = { runs, from, until, figures, because, assumptions, cautions, stepTitle };
    await saveOutlook(work.tx, { id, name, scenario, seed, asOf: asked.asOf, result, madeAt: work.now, madeBy: actorId(work.actor)! });
    await work.did('outlook', id, { seed, asOf: asked.asOf.toISOString() });
    return accept({ id });
  },
};

/** Removed, it is gone; that there was one stays in the audit trail. Refusals: not-found. */
export const dropOutlook: Act<{ id: string }, { id: string }> = {
  operation: 'liability.remove-outlook',
  run: async (work, { id }): Promise<Outcome<{ id: string }>> => {
    if (!(await removeOutlook(work.tx, id))) return refuse('not-found', { thing: 'kept outlook' });
    await work.did('outlook', id, { removed: true });
    return accept({ id });
  },
};

export const readKeptOutlooks = async (reader: Reader) =>
  (await listOutlooks<Scenario, Kept>(reader)).map(({ asOf, madeAt, ...rest }: KeptOutlook<Scenario, Kept>) => ({
    ...rest,
    asOf: asOf.toISOString(),
    madeAt: madeAt.toISOString(),
  }));
