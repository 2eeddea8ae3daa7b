// Two agreement texts beside each other, clause by clause, with marks at the words.
import type { ReactNode } from 'react';
import { NativeSelect, VisuallyHidden } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { TextComparison, WordMark } from '@backsight/contract/agreementTexts';
import { textComparisonQuery, textsQuery } from '../../api/agreementTexts.ts';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import classes from './texts.module.css';

const route = getRouteApi('/shell/agreement-texts/$textId/comparison');
const KIND = { added: 'New clause', removed: 'Removed clause', changed: 'Changed clause' } as const;

export function ComparePage(): ReactNode {
  const { textId } = route.useParams();
  const search = route.useSearch();
  const navigate = route.useNavigate();
  const { data: texts } = useQuery(textsQuery);
  const others = (texts ?? []).filter(({ id }) => id !== textId);
  const own = texts?.find(({ id }) => id === textId);
  const alike = others.filter(({ kind }) => kind === own?.kind);
  const withId = search.with ?? (own?.basedOnId || alike.find(({ inForce }) => inForce)?.id) ?? alike[0]?.id ?? others[0]?.id;
  return (
    <Page
      title="Two texts side by side"
      actions={
        <TextLink to="/agreement-texts/$textId" params={{ textId }}>
          Back to the text
        </TextLink>
      }
    >
      <NativeSelect
        label="Compared with"
        maw={420}
        mb="md"
        data={others.map(({ id, number, title }) => ({ value: id, label: `Number ${number}, ${title}` }))}
        value={withId ?? ''}
        onChange={(event) => void navigate({ search: { with: event.currentTarget.value } })}
      />
      {withId ? <Compared textId={textId} withId={withId} /> : null}
    </Page>
  );
}

function Compared({ textId, withId }: { textId: string; withId: string }): ReactNode {
  const { data, error, isPending } = useQuery(textComparisonQuery(textId, withId));
  if (isPending) return <Loading />;
  return data ? <Shown of={data} /> : <ProblemNote of={error} />;
}

function Shown({ of: { before, after, sentences, consentMarks, clauses } }: { of: TextComparison }): ReactNode {
  const nothing = sentences.length + clauses.length === 0;
  return (
    <>
      <p>
        <strong>{nothing ? 'Nothing differs.' : `${clauses.length} ${clauses.length === 1 ? 'clause differs' : 'clauses differ'}.`}</strong>{' '}
        Number {after.number} against number {before.number}.
      </p>
      {sentences.length > 0 ? (
        <ul>
          {sentences.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      ) : null}
      {consentMarks.length > 0 ? (
        <section className={classes.difference} aria-label="Consent to electronic records">
          <h3>Consent to electronic records</h3>
          <Sides marks={consentMarks} numbers={[before.number, after.number]} />
        </section>
      ) : null}
      {clauses.map((one) => (
        <Difference key={one.key} one={one} numbers={[before.number, after.number]} />
      ))}
    </>
  );
}

type Numbers = readonly [before: number, after: number];

function Difference({
  one: { kind, sentences, before, after, marks },
  numbers,
}: {
  one: TextComparison['clauses'][number];
  numbers: Numbers;
}): ReactNode {
  const title = after?.title || before?.title || 'without a title';
  const body = after?.body ?? before?.body ?? '';
  return (
    <section className={classes.difference} aria-label={title}>
      <h3>
        {KIND[kind]}: {title}
      </h3>
      <ul>
        {sentences.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      {kind === 'changed' ? marks.length > 0 ? <Sides marks={marks} numbers={numbers} /> : null : <p className={classes.words}>{body}</p>}
    </section>
  );
}

/** The old words left with what went marked, the new ones right with what came. */
function Sides({ marks, numbers }: { marks: readonly WordMark[]; numbers: Numbers }): ReactNode {
  return (
    <div className={classes.sides}>
      {(['removed', 'added'] as const).map((own, side) => (
        <div key={own}>
          <strong>Number {numbers[side]}</strong>
          <p className={classes.words}>
            {marks.map(({ mark, text }, at) => (mark === 'same' || mark === own ? <Word key={at} mark={mark} text={text} /> : null))}
          </p>
        </div>
      ))}
    </div>
  );
}

function Word({ mark, text }: WordMark): ReactNode {
  if (mark === 'same') return <span>{text}</span>;
  const Tag = mark === 'added' ? 'ins' : 'del';
  return (
    <Tag>
      <VisuallyHidden component="span">{mark === 'added' ? '(came) ' : '(went) '}</VisuallyHidden>
      {text}
    </Tag>
  );
}
