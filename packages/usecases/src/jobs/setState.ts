// Says in which state a property lies, where the ZIP code told another. The rules of that state count for papers written from now on.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { findProperty, setPropertyState } from '@backsight/store/jobs/properties';
import type { Act } from '../run.ts';

type Input = { id: string; version: number; state: string };

/** Refusals: nothing-changed, changed-meanwhile. */
export const setState: Act<Input, { id: string; version: number }> = {
  operation: 'jobs.set-state',
  run: async (work, { id, version, state }) => {
    const property = await findProperty(work.tx, id);
    if (!property) return refuse('not-found', { thing: 'property' });
    if (property.state === state) return refuse('nothing-changed', {}, 'state');
    if (!(await setPropertyState(work.tx, id, version, state))) return refuse('changed-meanwhile');
    await work.did('property', id, { state, stateBefore: property.state });
    return accept({ id, version: version + 1 });
  },
};
