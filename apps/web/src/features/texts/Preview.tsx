// How a draft reads for one job as it stands on the screen, kept or not; it follows what is typed.
import { useEffect, useState, type ReactNode } from 'react';
import { NumberInput } from '@mantine/core';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { Clause, TextLimits, TextPreview } from '@backsight/contract/agreementTexts';
import { previewText } from '../../api/agreementTexts.ts';
import { PaperBlocks } from '../../ui/PaperBlocks.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Breaks } from './words.tsx';
import classes from './texts.module.css';

type Content = { title: string; consentText: string; clauses: Clause[]; limits: TextLimits };
const PAUSE_MS = 500;

/** A value that follows once it has not changed for a moment. */
function useSettled<T>(value: T): T {
  const [settled, setSettled] = useState(value);
  const text = JSON.stringify(value);
  useEffect(() => {
    const later = setTimeout(() => setSettled(JSON.parse(text) as T), PAUSE_MS);
    return () => clearTimeout(later);
  }, [text]);
  return settled;
}

export function Preview({ content }: { content: Content }): ReactNode {
  const [job, setJob] = useState<number | null>(null);
  const asked = useSettled({ ...content, jobNumber: job });
  const { data, error } = useQuery({
    queryKey: ['agreement-text-preview', asked],
    queryFn: () => previewText({ ...asked, jobNumber: asked.jobNumber! }),
    enabled: asked.jobNumber !== null,
    placeholderData: keepPreviousData,
    retry: false,
  });
  return (
    <Section title="How it reads for a job">
      <NumberInput
        label="Number of a job"
        w={180}
        hideControls
        allowDecimal={false}
        min={1}
        value={job ?? ''}
        onChange={(value) => setJob(value === '' ? null : Number(value))}
      />
      <ProblemNote of={error} />
      {data && asked.jobNumber !== null ? <Shown preview={data} /> : null}
    </Section>
  );
}

function Shown({ preview: { job, blocks, clauses, breaks, warnings } }: { preview: TextPreview }): ReactNode {
  const nameOf = ({ title, key }: { title: string; key: string }) => title || key;
  const left = clauses.filter(({ applies }) => applies === 'no');
  const unsure = clauses.filter(({ applies }) => applies === 'unknown');
  return (
    <>
      <p>
        Job {job.number}, {job.address}.
      </p>
      {left.length > 0 ? <p>Left out, as they do not apply: {left.map(nameOf).join('; ')}.</p> : null}
      {unsure.length > 0 ? <p>Taken in, because a fact is not known yet: {unsure.map(nameOf).join('; ')}.</p> : null}
      {warnings.map(({ code, text }) => (
        <p key={code}>
          <strong>{text}</strong>
        </p>
      ))}
      <Breaks breaks={breaks} />
      <article className={classes.paper} aria-label="The agreement as it would read">
        <PaperBlocks blocks={blocks} />
      </article>
    </>
  );
}
