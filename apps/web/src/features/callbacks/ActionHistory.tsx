// What happened to a corrective action, first to last.
import type { ReactNode } from 'react';
import { REVIEW_RESULTS, type ActionPage as Action } from '@backsight/contract/callbacks/change';
import { TextLink } from '../../ui/links.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day, When } from '../../ui/When.tsx';

type Event = Action['events'][number];

const WORDS: Record<Event['kind'], string> = {
  decided: 'Decided',
  replanned: 'Planned anew',
  linked: 'Revision linked',
  done: 'Done',
  dropped: 'Dropped',
  recurred: 'Opened again: the step failed on a job inspected after the change',
  reviewed: 'Reviewed',
};

export const ActionHistory = ({ events }: { events: Event[] }): ReactNode => (
  <Section title="History">
    <ol>
      {events.map((e) => (
        <li key={e.happenedAt + e.kind}>
          <When at={e.happenedAt} /> {WORDS[e.kind]}
          {e.by ? `, ${e.by}` : ''}
          <Besides event={e} />
        </li>
      ))}
    </ol>
  </Section>
);

const Besides = ({ event: e }: { event: Event }): ReactNode => (
  <>
    {e.callback ? (
      <>
        : <TextLink to="/callbacks/$callbackId" params={{ callbackId: e.callback.id }}>{`callback ${e.callback.number}`}</TextLink>
      </>
    ) : null}
    {e.result ? `: ${REVIEW_RESULTS[e.result]}` : ''}
    {e.dueOn && e.kind !== 'done' ? (
      <>
        , due <Day day={e.dueOn} />
      </>
    ) : null}
    {e.reviewOn ? (
      <>
        , review on <Day day={e.reviewOn} />
      </>
    ) : null}
    {e.doneOn ? (
      <>
        , on <Day day={e.doneOn} />
      </>
    ) : null}
    {e.attendees && e.attendees.length > 0 ? `; attended: ${e.attendees.join(', ')}` : ''}
    {e.kit ? `; kit: ${e.kit}` : ''}
    {e.words ? <p style={{ whiteSpace: 'pre-wrap', margin: 0 }}>{e.words}</p> : null}
  </>
);
