// The firm's agreement texts by kind, newest first, and whether an attorney has reviewed each.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { TEXT_KINDS, type TextLine } from '@backsight/contract/agreementTexts';
import { textsQuery } from '../../api/agreementTexts.ts';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Review, Standing } from './words.tsx';
import classes from './texts.module.css';

export function TextsPage(): ReactNode {
  const texts = useQuery(textsQuery);
  return (
    <Page
      title="Agreement texts"
      about="The words that clients sign. A text is an example until an attorney has reviewed it; once approved it is never edited, only replaced."
      width="narrow"
    >
      <ProblemNote of={texts.error} />
      {texts.isPending ? <Loading /> : null}
      {texts.data
        ? Object.entries(TEXT_KINDS).map(([kind, title]) => (
            <Section key={kind} title={title}>
              {texts.data
                .filter((text) => text.kind === kind)
                .map((text) => (
                  <Line key={text.id} text={text} />
                ))}
            </Section>
          ))
        : null}
    </Page>
  );
}

function Line({ text }: { text: TextLine }): ReactNode {
  return (
    <div className={classes.clause}>
      <h3>
        <TextLink to="/agreement-texts/$textId" params={{ textId: text.id }}>
          {text.title}, number {text.number}
        </TextLink>
      </h3>
      <p className={classes.soft}>
        <Standing text={text} />
      </p>
      {text.reason ? <p className={classes.soft}>Why: {text.reason}</p> : null}
      {text.state === 'approved' ? (
        <p className={classes.soft}>
          <Review text={text} />
        </p>
      ) : null}
      <p className={classes.soft}>
        {text.clauseCount} {text.clauseCount === 1 ? 'clause' : 'clauses'}; {text.limits}.
      </p>
    </div>
  );
}
