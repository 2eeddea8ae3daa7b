// Puts the firm's insurance policies on file.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { savePolicy, updatePolicy, type PolicyRow } from '@backsight/store/firm/authority';
import type { Act, Work } from '../run.ts';

const inOrder = (policy: PolicyRow): Outcome<null> =>
  policy.endsOn > policy.startsOn ? accept(null) : refuse('policy-days-backwards', {}, 'endsOn');
const told = ({ kind, basis, startsOn, endsOn, limitCents, deductibleCents }: PolicyRow) => ({
  kind,
  basis,
  startsOn,
  endsOn,
  limitCents,
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
