// A file of everything of the job, for an attorney to review: made in one act, kept as it was made.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, TextInput, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { JobFile } from '@backsight/contract/jobs/files';
import { newId } from '../../api/ids.ts';
import { jobFilesQuery, makeJobFile, reviewJobFile } from '../../api/jobFiles.ts';
import { Form } from '../../ui/Form.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';
import { HoldBack, type Chosen } from './HoldBack.tsx';
import classes from './jobs.module.css';

export function JobFiles({ jobId, isOwner }: { jobId: string; isOwner: boolean }): ReactNode {
  const [making, setMaking] = useState(false);
  const { data, error } = useQuery(jobFilesQuery(jobId));
  return (
    <Section title="Files for requests of records" folds>
      <ProblemNote of={error} />
      {data?.length === 0 ? <p>None was made. A file holds everything of the job, for an attorney to review before it leaves.</p> : null}
      {data?.map((file) => (
        <OneFile key={file.id} file={file} isOwner={isOwner} />
      ))}
      {making ? (
        <Make jobId={jobId} isOwner={isOwner} done={() => setMaking(false)} />
      ) : (
        <Button variant="default" onClick={() => setMaking(true)}>
          Make a file of this job
        </Button>
      )}
    </Section>
  );
}

function OneFile({ file, isOwner }: { file: JobFile; isOwner: boolean }): ReactNode {
  const about = `${file.pages} pages, for ${file.forWhom}`;
  return (
    <div style={{ marginBottom: 'var(--bs-space-6)' }}>
      <p>
        {file.opinions && !isOwner ? `${about} (with opinions: for owners alone)` : <a href={`/api/job-files/${file.id}`}>{about}</a>}, made
        by {file.by} <When at={file.recordedAt} />. {file.reason}
      </p>
      {file.review ? (
        <p>
          Reviewed by {file.review.reviewer} on <Day day={file.review.on} />, as {file.review.by} said: it goes out as it was made.
        </p>
      ) : (
        <Reviewed file={file} isOwner={isOwner} />
      )}
      <details>
        <summary>
          {file.parts.length} parts, {file.heldBack.length} things held back
        </summary>
        <ol>
          {file.parts.map(({ title, page }) => (
            <li key={`${title} ${page}`}>
              {title}, page {page}
            </li>
          ))}
        </ol>
        <p>Held back:</p>
        <ul>
          {file.heldBack.map(({ what, why }) => (
            <li key={`${what} ${why}`}>
              {what}: {why}
            </li>
          ))}
        </ul>
        <p style={{ overflowWrap: 'anywhere' }}>Fingerprint (SHA-256): {file.fileSha256}</p>
      </details>
    </div>
  );
}

const REVIEW = { reviewer: 'Who reviewed it', reviewedOn: 'Reviewed on' };

function Reviewed({ file, isOwner }: { file: JobFile; isOwner: boolean }): ReactNode {
  const [key] = useState(newId);
  const review = useSend(reviewJobFile, { refresh: ['job-files'], said: 'It may leave: it is now given out without the mark.' });
  const fields = useFields({ reviewer: file.forWhom, reviewedOn: '' }, REVIEW, review.error, `review-${file.id}`);
  return (
    <details>
      <summary>For the attorney’s review: every page says that it does not leave yet</summary>
      {isOwner ? (
        <Form
          error={review.error}
          labels={REVIEW}
          scope={`review-${file.id}`}
          submit="It was reviewed and may leave"
          busy={review.isPending}
          onSubmit={() => review.mutate({ id: file.id, key, ...fields.values })}
        >
          <TextInput {...fields.text('reviewer')} required maxLength={160} />
          <TextInput {...fields.text('reviewedOn')} type="date" required maw="12rem" />
        </Form>
      ) : (
        <p>An owner says when it was reviewed.</p>
      )}
    </details>
  );
}

const LABELS = {
  forWhom: 'Made for',
  reason: 'Why, and what was asked for',
  opinions: 'Put the opinions in: conclusions, accounts of the pair, and money of callbacks',
};

function Make({ jobId, isOwner, done }: { jobId: string; isOwner: boolean; done: () => void }): ReactNode {
  const [id] = useState(newId);
  const make = useSend(makeJobFile, { refresh: ['job-files'], said: 'The file is made: open it and hand it to the attorney.', then: done });
  const [chosen, setChosen] = useState<Chosen>({});
  const withheld = Object.entries(chosen).map(([item, why]) => ({ key: item, why }));
  const fields = useFields({ forWhom: '', reason: '', opinions: false }, LABELS, make.error, 'file', jobId);
  return (
    <div className={classes.inline}>
      <Form
        error={make.error}
        labels={LABELS}
        draft={fields.draft}
        scope="file"
        submit="Make the file"
        busy={make.isPending}
        onSubmit={() => make.mutate({ id, jobId, ...fields.values, withheld })}
        besides={
          <Button variant="default" onClick={done}>
            Leave it
          </Button>
        }
      >
        <TextInput {...fields.text('forWhom')} required maxLength={160} description="Name of the attorney who reviews it" />
        <Textarea {...fields.text('reason')} required autosize minRows={2} />
        {isOwner ? (
          <Checkbox
            {...fields.check('opinions')}
            mt="sm"
            description="Only after the attorney said so: once they have left they cannot be taken back, and whoever gets the file may use them against the firm"
          />
        ) : null}
        {isOwner ? <HoldBack jobId={jobId} chosen={chosen} onChange={setChosen} /> : null}
      </Form>
    </div>
  );
}
