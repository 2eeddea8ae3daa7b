// On the page of the firm: whether somebody is on call in the coming day, and the ways to the list and to the clocks of callbacks.
import type { ReactNode } from 'react';
import { Alert } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { onCallQuery } from '../../api/callbackClocks.ts';
import { TextLink } from '../../ui/links.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';

export function OnCallNote({ desk }: { desk: boolean }): ReactNode {
  const { data } = useQuery(onCallQuery);
  const gaps = data?.uncovered ?? [];
  return (
    <Section title="When a callback comes in">
      {gaps.length > 0 ? (
        <Alert color="orange" title="Nobody is on call" mb="sm">
          {gaps.map(({ from, to }) => (
            <p key={from}>
              <When at={from} /> to <When at={to} />
            </p>
          ))}
          Danger goes to the owners then, and after them to lead inspectors.
        </Alert>
      ) : null}
      <p>
        <TextLink to="/on-call">On-call list</TextLink>
        {data
          ? `: ${
              data.now
                .filter(({ onCall }) => onCall)
                .map(({ name }) => name)
                .join(', ') || 'nobody'
            } now.`
          : ''}
      </p>
      {desk ? (
        <p>
          <TextLink to="/callback-clocks">Clocks of callbacks</TextLink>: how long each kind may take.
        </p>
      ) : null}
    </Section>
  );
}
