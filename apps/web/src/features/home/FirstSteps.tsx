// What a new firm does until its first agreement is signed, and what it still lacks afterwards. Each step is ticked by the records, and leads to where it is done;
// an owner may leave one, or all that is open.
import { Fragment, type ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { Button, VisuallyHidden } from '@mantine/core';
import type { FirstStep, FirstStepState } from '@backsight/contract/home';
import { leaveSteps } from '../../api/home.ts';
import { peopleQuery, useMe } from '../../api/people.ts';
import { TextLink } from '../../ui/links.tsx';
import { partId } from '../../ui/partId.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { begins } from './begins.ts';
import classes from './home.module.css';

/** `part`: that part of the screen, by its title. */
type Words = { what: string; why: string; act: string; to: string; part?: string };

const STEPS: Record<FirstStep, Words> = {
  inspectors: { what: 'Add your inspectors', why: 'Two go to every inspection, so at least two.', act: 'Add a person', to: '/people/new' },
  licenses: { what: 'Put their licenses on file', why: 'Nobody is offered for a visit without one.', act: 'Open People', to: '/people' },
  hours: { what: 'Set their usual hours', why: 'Nobody is offered outside them.', act: 'Open People', to: '/people' },
  kit: {
    what: 'Put the shared kit on file',
    why: 'A start is offered when what the house needs can come along.',
    act: 'Open Kit',
    to: '/kit',
  },
  sizes: { what: 'Say the sizes of what each wears', why: 'Crawl suits and respirators have to fit.', act: 'Open People', to: '/people' },
  lead: {
    what: 'Name a lead inspector',
    why: 'Somebody looks into callbacks and drafts procedures; a second person approves them.',
    act: 'Open People',
    to: '/people',
  },
  text: {
    what: 'Have your attorney review the agreement text',
    why: 'Until then every agreement says that it is an example.',
    act: 'Open Agreement texts',
    to: '/agreement-texts',
  },
  policy: {
    what: 'Put your insurance on file',
    why: 'Callbacks are held against its notice rules.',
    act: 'Open Insurance',
    to: '/firm',
    part: 'Insurance',
  },
  onCall: {
    what: 'Say who is on call',
    why: 'Somebody is alerted when a client may be in danger, at any hour.',
    act: 'Open On call',
    to: '/on-call',
  },
  secondFactor: {
    what: 'Guard the sign-in of the owners with a second factor',
    why: 'Whoever learns an owner\u2019s password reads every client, price and callback.',
    act: 'Open Signing in',
    to: '/security',
  },
  mail: {
    what: 'See that mail leaves',
    why: 'Clients get their links by mail. It stays in the Outbox while the service is started without SMTP_URL, the address of your mail server.',
    act: 'Send a test',
    to: '/mail/settings',
  },
  book: {
    what: 'Book the first job',
    why: 'Price, pair and start in one call; nothing is booked before you confirm.',
    act: 'Book a job',
    to: '/book',
  },
  sign: {
    what: 'Get the first agreement signed',
    why: 'The client signs on a private link, or at the door.',
    act: 'Open Jobs',
    to: '/jobs',
  },
};

export default function FirstSteps({ steps, left }: { steps: readonly FirstStepState[]; left: readonly string[] }): ReactNode {
  const owner = useMe().roles.includes('owner');
  const done = steps.filter((step) => step.done).length;
  const leave = useSend((more: FirstStep[]) => leaveSteps([...(left as FirstStep[]), ...more]), {
    refresh: ['home'],
    said: 'It is no longer shown to anybody in the firm.',
    undo: () => () => leaveSteps([...(left as FirstStep[])]),
  });
  const open = steps.filter((step) => !step.done).map(({ key }) => key);
  return (
    <Section
      title={begins(steps) ? 'To the first signed agreement' : 'Still to set up'}
      brief={`${done} of ${steps.length} done`}
      actions={
        owner ? (
          <Button size="compact-md" variant="default" loading={leave.isPending} onClick={() => leave.mutate(open)}>
            Leave this list
          </Button>
        ) : undefined
      }
    >
      <ProblemNote of={leave.error} />
      <ol className={classes.steps}>
        {steps.map((step) => (
          <Line key={step.key} step={step} words={STEPS[step.key]} onLeave={owner ? () => leave.mutate([step.key]) : null} />
        ))}
      </ol>
      {owner ? (
        <p className={classes.kept}>What you leave is gone for everybody in the firm. That you left it is kept in the audit trail.</p>
      ) : null}
    </Section>
  );
}

/** Whoever it is missing for, and the form for what is missing, is one press away. */
function Missing({ of, names }: { of: FirstStep; names: readonly string[] }): ReactNode {
  const people = useQuery(peopleQuery).data ?? [];
  return (
    <>
      {' '}
      Still missing:{' '}
      {names.map((name, at) => {
        const person = people.find((one) => one.name === name && one.endedOn === null);
        return (
          <Fragment key={name}>
            {at > 0 ? ', ' : ''}
            {person ? (
              <TextLink to="/people/$personId" params={{ personId: person.id }} search={{}}>
                {name}
              </TextLink>
            ) : of === 'kit' ? (
              <TextLink to="/kit" hash={`add-${partId(name)}`}>
                {name}
              </TextLink>
            ) : (
              name
            )}
          </Fragment>
        );
      })}
      .
    </>
  );
}

type LineProps = { step: FirstStepState; words: Words; /** Null: whoever looks may not leave it. */ onLeave: (() => void) | null };

function Line({ step: { key, done, missing }, words, onLeave }: LineProps): ReactNode {
  return (
    <li>
      <span aria-hidden="true">{done ? '\u2713' : '\u25cb'}</span>
      <div>
        <strong>{words.what}</strong>
        <VisuallyHidden>{done ? ', done' : ', to do'}</VisuallyHidden>
        {done ? null : (
          <p>
            {words.why}
            {missing.length > 0 ? <Missing of={key} names={missing} /> : null}
          </p>
        )}
      </div>
      {done ? null : (
        <div className={classes.ways}>
          <Link to={words.to} hash={words.part ? partId(words.part) : ''}>
            {words.act}
          </Link>
          {onLeave ? (
            <Button size="compact-sm" variant="subtle" aria-label={`Leave it: ${words.what}`} onClick={onLeave}>
              Leave it
            </Button>
          ) : null}
        </div>
      )}
    </li>
  );
}
