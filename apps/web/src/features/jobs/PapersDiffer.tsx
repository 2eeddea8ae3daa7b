// Says where the papers of a job no longer say what the job is, and issues them anew.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { newId } from '../../api/ids.ts';
import { issuePapers } from '../../api/jobs.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { useChange } from './useChange.ts';

export function PapersDiffer({ job }: { job: Job }): ReactNode {
  const [key] = useState(newId);
  const issue = useChange(issuePapers, 'The agreement and the invoice are issued.', ({ warnings }) => {
    for (const { text } of warnings) saved(text);
  });
  return (
    <section aria-label="Papers differ">
      <h2>The papers differ from the job</h2>
      <p>
        {job.papersDiffer.join(' ')} Papers that change are replaced: the client signs again, an unpaid invoice is withdrawn, and what was
        paid stays counted.
      </p>
      <ProblemNote of={issue.error} />
      <Button loading={issue.isPending} onClick={() => issue.mutate({ id: job.id, key: `${key}-${job.version}` })}>
        Issue the new agreement and invoice
      </Button>
    </section>
  );
}
