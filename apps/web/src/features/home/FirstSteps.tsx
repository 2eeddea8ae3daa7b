// What a new firm does until its first agreement is signed. Each step is ticked by the records, and leads to where it is done.
import { Fragment, type ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { VisuallyHidden } from '@mantine/core';
import type { FirstStep, FirstStepState } from '@backsight/contract/home';
import { peopleQuery } from '../../api/people.ts';
import { TextLink } from '../../ui/links.tsx';
import { partId } from '../../ui/partId.ts';
import { Section } from '../../ui/Section.tsx';
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
    why: 'The client signs on a private link, or at the door. This list ends then.',
    act: 'Open Jobs',
    to: '/jobs',
  },
};

export function FirstSteps({ steps }: { steps: readonly FirstStepState[] }): ReactNode {
  const done = steps.filter((step) => step.done).length;
  return (
    <Section title="To the first signed agreement" brief={`${done} of ${steps.length} done`}>
      <ol className={classes.steps}>
        {steps.map((step) => (
          <Line key={step.key} step={step} words={STEPS[step.key]} />
        ))}
      </ol>
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

function Line({ step: { key, done, missing }, words }: { step: FirstStepState; words: Words }): ReactNode {
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
        <Link to={words.to} hash={words.part ? partId(words.part) : ''}>
          {words.act}
        </Link>
      )}
    </li>
  );
}
