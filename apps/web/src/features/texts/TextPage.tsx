// One agreement text in full: where it stands, each clause with when it applies, and what can be done with it.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { TEXT_KINDS, type TextPage as Text } from '@backsight/contract/agreementTexts';
import { textQuery } from '../../api/agreementTexts.ts';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { PaperBlocks } from '../../ui/PaperBlocks.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';
import { TextActs } from './TextActs.tsx';
import { Breaks, Review, Standing } from './words.tsx';
import classes from './texts.module.css';

const route = getRouteApi('/shell/agreement-texts/$textId');

export function TextPage(): ReactNode {
  const { textId } = route.useParams();
  const { data, error, isPending } = useQuery(textQuery(textId));
  return (
    <Page
      title={data ? `${data.title}, number ${data.number}` : 'Agreement text'}
      about={data ? TEXT_KINDS[data.kind] : ''}
      width="narrow"
      actions={<TextLink to="/agreement-texts">All texts</TextLink>}
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? <Shown text={data} /> : null}
    </Page>
  );
}

function Shown({ text }: { text: Text }): ReactNode {
  return (
    <>
      <p>
        <Standing text={text} />
      </p>
      {text.state === 'draft' ? null : (
        <p>
          <Review text={text} />
        </p>
      )}
      {text.reason ? <p>Why it was written: {text.reason}</p> : null}
      <p>Limits: {text.limits}.</p>
      <Breaks breaks={text.breaks} />
      {text.setAside.map(({ id, jurisdiction, rowKey, by, reason, happenedAt }) => (
        <p key={id}>
          Row {rowKey} of {jurisdiction} was set aside by {by}, <When at={happenedAt} />: {reason}
        </p>
      ))}
      <TextActs text={text} />
      <Section title="Clauses">
        {text.clauses.map((clause) => (
          <section key={clause.key} className={classes.clause} aria-label={clause.title || clause.key}>
            <h3>{clause.title || <span className={classes.soft}>Without a title ({clause.key})</span>}</h3>
            <p className={classes.soft}>
              Applies {clause.when}.{text.lockedHere.includes(clause.key) ? ' Locked by an attorney.' : ''}
            </p>
            <PaperBlocks blocks={clause.blocks} top={4} />
          </section>
        ))}
      </Section>
      <Section title="Consent to electronic records">
        <p style={{ whiteSpace: 'pre-line' }}>{text.consentText}</p>
      </Section>
    </>
  );
}
