// Issues the agreement; before a new one takes the place of another, the difference is shown.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { issueAgreement, issuePreviewQuery } from '../../api/agreements.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { Changes } from './Changes.tsx';
import { useKeptLinks } from './KeptLink.tsx';

export function Issue({ jobId, again }: { jobId: string; again: boolean }): ReactNode {
  const me = useMe();
  const { mailLeaves } = useKeptLinks(jobId);
  const queries = useQueryClient();
  const [key, setKey] = useState(newId);
  const [asking, setAsking] = useState(false);
  const save = useMutation({
    mutationFn: () => issueAgreement({ jobId, key }),
    onSuccess: async ({ warnings }) => {
      await queries.invalidateQueries({ queryKey: ['agreements'] });
      setKey(newId());
      setAsking(false);
      saved(
        warnings.map(({ text }) => text).join(' ') ||
          (mailLeaves
            ? 'The agreement is issued; links go out within seconds.'
            : 'The agreement is issued. Copy each link, and pass it on.'),
      );
    },
  });
  if (!me.roles.some((role) => role === 'owner' || role === 'office_manager')) return null;
  if (!again)
    return (
      <>
        <ProblemNote of={save.error} />
        <Button mt="md" loading={save.isPending} onClick={() => save.mutate()}>
          Issue the agreement
        </Button>
      </>
    );
  return (
    <>
      <Button mt="md" variant="default" onClick={() => setAsking(true)}>
        See what has changed, and issue again
      </Button>
      {asking ? (
        <Again jobId={jobId} busy={save.isPending} error={save.error} onConfirm={() => save.mutate()} onClose={() => setAsking(false)} />
      ) : null}
    </>
  );
}

type AgainProps = { jobId: string; busy: boolean; error: unknown; onConfirm: () => void; onClose: () => void };

function Again({ jobId, busy, error, onConfirm, onClose }: AgainProps): ReactNode {
  const preview = useQuery(issuePreviewQuery(jobId));
  const { mailLeaves } = useKeptLinks(jobId);
  const { data } = preview;
  return (
    <ConfirmDialog
      opened
      title="A new agreement in the place of this one"
      act={data?.same ? 'Nothing to issue' : 'Issue the new agreement'}
      busy={busy}
      error={error ?? preview.error}
      onConfirm={data && !data.same ? onConfirm : onClose}
      onClose={onClose}
    >
      {preview.isPending ? <Loading /> : null}
      {data?.same ? <p>Nothing has changed: the agreement stays as it is.</p> : null}
      {data && !data.same ? (
        <>
          <Changes title="What changes" changes={data.changes} />
          <p>
            {data.signAgain.length > 0
              ? `${data.signAgain.join(' and ')} signed the one before and has to sign again; what was signed is kept. `
              : ''}
            {mailLeaves
              ? `Links go to ${data.signers.join(' and ')}.`
              : `Links are made for ${data.signers.join(' and ')}. No mail server is set: copy them then, and pass them on.`}
          </p>
        </>
      ) : null}
    </ConfirmDialog>
  );
}
