// Puts the firm's insurance policies on file.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { listPolicies, savePolicy, updatePolicy, type PolicyRow } from '@backsight/store/firm/authority';
import type { Act, Work } from '../run.ts';

function inOrder({ startsOn, endsOn, limitCents, aggregateCents }: PolicyRow): Outcome<null> {
  if (endsOn <= startsOn) return refuse('policy-days-backwards', {}, 'endsOn');
  return aggregateCents !== null && aggregateCents < limitCents ? refuse('policy-aggregate-low', {}, 'aggregateCents') : accept(null);
}
const told = ({ kind, basis, startsOn, endsOn, limitCents, aggregateCents, deductibleCents }: PolicyRow) => ({
  kind,
  basis,
  startsOn,
  endsOn,
  limitCents,
  aggregateCents,
  deductibleCents,
});

export const addPolicy: Act<PolicyRow, { id: string }> = { operation: 'firm.add-policy', run: add };

async function add(work: Work, policy: PolicyRow): Promise<Outcome<{ id: string }>> {
  const fits = inOrder(policy);
  if (!fits.ok) return fits;
  await savePolicy(work.tx, policy);
  await work.did('insurance-policy', policy.id, told(policy));
  return accept({ id: policy.id });
}

export const changePolicy: Act<PolicyRow, { id: string }> = { operation: 'firm.change-policy', run: change };

async function change(work: Work, policy: PolicyRow): Promise<Outcome<{ id: string }>> {
  const fits = inOrder(policy);
  if (!fits.ok) return fits;
  if (!(await updatePolicy(work.tx, policy))) return refuse('not-found', { thing: 'policy' });
  await work.did('insurance-policy', policy.id, told(policy));
  return accept({ id: policy.id });
}

export type EndPolicyInput = { id: string; endsOn: string; reason: string };

/** The insurer or the firm ends a policy before its period is over. What counted under it goes on to count. */
export const endPolicy: Act<EndPolicyInput, { id: string }> = { operation: 'firm.end-policy', run: end };

async function end(work: Work, { id, endsOn, reason }: EndPolicyInput): Promise<Outcome<{ id: string }>> {
  const policy = (await listPolicies(work.tx)).find((one) => one.id === id);
  if (!policy) return refuse('not-found', { thing: 'policy' });
  if (endsOn <= policy.startsOn || endsOn >= policy.endsOn) return refuse('policy-end-outside', { endsOn: policy.endsOn }, 'endsOn');
  await updatePolicy(work.tx, { ...policy, endsOn });
  await work.did('insurance-policy', id, { event: 'ended', endsOn, before: policy.endsOn, reason });
  return accept({ id });
}
