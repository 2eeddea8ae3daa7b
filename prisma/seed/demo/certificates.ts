// The insurer's certificates of the policies in force: files, so they come once the firm is in a database with a folder beside it.
import { pdfOf } from '@backsight/documents/pdf/write';
import { formatUsd } from '@backsight/domain/shared/money';
import { listPolicies, type PolicyRow } from '@backsight/store/firm/authority';
import type { Reader } from '@backsight/store/database';
import { addCertificate } from '@backsight/usecases/mail/certificates';
import type { Runner } from '@backsight/usecases/run';
import { actorOf, FIRM, PEOPLE } from './people.ts';
import { valueOf } from './stage.ts';

type Parts = { reader: Reader; runner: Runner; newId: () => string; directory: string; now: Date };

const KINDS: Record<PolicyRow['kind'], string> = { professional: 'professional liability', general: 'general liability' };

const paperOf = async (policy: PolicyRow, at: Date): Promise<Uint8Array> =>
  pdfOf({
    title: 'Certificate of insurance',
    at,
    firm: policy.insurer,
    firmLines: [policy.noticeAddress],
    blocks: [
      { kind: 'notice', words: 'An invented certificate of the demo firm. It covers nobody.' },
      {
        kind: 'facts',
        pairs: [
          ['Insured', `${FIRM.name}, ${FIRM.address}`],
          ['Policy', `${policy.number}, ${KINDS[policy.kind]}`],
          ['In force', `from ${policy.startsOn} to ${policy.endsOn}`],
          ['Limit of one claim', formatUsd(policy.limitCents)],
          ['Limit of all claims', policy.aggregateCents === null ? 'none named' : formatUsd(policy.aggregateCents)],
        ],
      },
      { kind: 'text', words: 'This paper tells of a policy; it changes nothing in it.', small: true },
    ],
  });

/** Puts one on file for each policy of today, as the owner does. @throws Error when one is refused */
export async function certificatesOnFile({ reader, runner, newId, directory, now }: Parts): Promise<void> {
  const today = now.toISOString().slice(0, 10);
  const inForce = (await listPolicies(reader)).filter(({ startsOn, endsOn }) => startsOn <= today && today <= endsOn);
  for (const policy of inForce) {
    const file = { name: `certificate-${policy.number}.pdf`, base64: Buffer.from(await paperOf(policy, now)).toString('base64') };
    const input = { id: newId(), policyId: policy.id, file, directory };
    valueOf(await runner.run(addCertificate, input, { actor: actorOf(PEOPLE.owner) }), addCertificate.operation);
  }
}
