// Walks the chain of seals on demand and says what was found.
import type { ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { auditCheckQuery } from '../../api/audit.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';

export function CheckChain(): ReactNode {
  const check = useQuery(auditCheckQuery);
  return (
    <>
      <Group mb="md">
        <Button variant="default" loading={check.isFetching} onClick={() => void check.refetch()}>
          Check the seals
        </Button>
        <span role="status">{check.data ? found(check.data) : null}</span>
      </Group>
      <ProblemNote of={check.error} />
    </>
  );
}

type Found = { sealed: number; unsealed: number; brokenAt: number | null };

const found = ({ sealed, unsealed, brokenAt }: Found): string =>
  brokenAt === null
    ? `All ${sealed} seals fit${unsealed > 0 ? `; ${unsealed} newest entries are not sealed yet` : ''}.`
    : `Seal ${brokenAt} does not fit: an entry was changed or cut out. Entries up to seal ${sealed} are whole.`;
