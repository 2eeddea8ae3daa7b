// One callback: facts for the desk; evidence, conclusion, remedies and money for owner and lead inspector.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { KINDS, SPEAKERS, STATES, type Callback } from '@backsight/contract/callbacks';
import { listed } from '@backsight/domain/shared/phrases';
import { callbackQuery } from '../../api/callbacks.ts';
import { afterQuery, lettersQuery } from '../../api/callbacksAfter.ts';
import { useMe } from '../../api/people.ts';
import { Contacts } from '../../ui/contacts/Contacts.tsx';
import { Details } from '../../ui/Details.tsx';
import { Hold } from '../../ui/hold/Hold.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day, When } from '../../ui/When.tsx';
import { ActionPanel } from './ActionPanel.tsx';
import { AfterClosing } from './AfterClosing.tsx';
import { Assessed } from './Assess.tsx';
import { CameIn } from './CameIn.tsx';
import { Clocks } from './Clocks.tsx';
import { Conclude } from './Conclude.tsx';
import { DangerPanel } from './DangerPanel.tsx';
import { Evidence } from './Evidence.tsx';
import { History } from './History.tsx';
import { Letters } from './Letters.tsx';
import { MoneyPanel } from './MoneyPanel.tsx';
import { Moves } from './Moves.tsx';
import { NextAct } from './NextAct.tsx';
import { OneOpen } from './oneOpen.tsx';
import { Opinions } from './Opinions.tsx';
import { OwnersAlone } from './OwnersAlone.tsx';
import { Remedies } from './Remedies.tsx';
import { Story } from './Story.tsx';
import { clockText, judges, SYSTEMS } from './words.ts';
import classes from './Story.module.css';

const route = getRouteApi('/shell/callbacks/$callbackId');

export function CallbackPage(): ReactNode {
  const { callbackId } = route.useParams();
  const me = useMe();
  const found = useQuery(callbackQuery(callbackId));
  // What comes next stands above everything: a page that came before it would move beneath the finger.
  const [after, letters] = [useQuery(afterQuery(callbackId)), useQuery(lettersQuery(callbackId))];
  const callback = after.isPending || letters.isPending ? undefined : found.data;
  if (!callback)
    return (
      <Page title="Callback">
        <ProblemNote of={found.error} />
        {found.error ? null : <Loading />}
      </Page>
    );
  const judge = judges(me.roles);
  const plain = callback.kind === 'question';
  const next = clockText(callback.clock, me.zone);
  return (
    <Page
      width="full"
      title={`${plain ? 'Question' : callback.kind === 'near_miss' ? 'Near-miss' : 'Callback'} ${callback.number}`}
      about={
        <>
          {`${KINDS[callback.kind]}, ${STATES[callback.state]}`}
          {next && callback.state !== 'closed' ? (
            <>
              . <strong>{next}</strong>
            </>
          ) : null}
          {callback.money && callback.money.reservedCents > 0 ? (
            <>
              . <Money cents={callback.money.reservedCents} /> set aside
            </>
          ) : null}
        </>
      }
      actions={
        <>
          {judge && !plain ? (
            <TextLink to="/callbacks/$callbackId/evidence" params={{ callbackId }}>
              The whole evidence on one page
            </TextLink>
          ) : null}
          <TextLink to="/callbacks">All callbacks</TextLink>
        </>
      }
    >
      <OneOpen>
        {callback.safety ? <DangerPanel callback={callback} /> : null}
        <NextAct callback={callback} />
        <div className={classes.anytime}>
          {callback.safety ? null : <DangerPanel callback={callback} />}
          <Moves callback={callback} />
        </div>
        {me.roles.includes('owner') ? <OwnersAlone id={callback.id} /> : null}
        <Story
          callback={callback}
          judge={judge}
          panes={{
            said: <Said callback={callback} />,
            recorded: <Evidence callback={callback} />,
            concluded: <Concluding callback={callback} />,
            done: <Remedies callback={callback} judge={judge} />,
            cost: <MoneyPanel callback={callback} />,
            changed: <ActionPanel callback={callback} />,
          }}
        />
        <Letters callback={callback} />
        <AfterClosing callback={callback} />
        <Clocks id={callback.id} closed={callback.state === 'closed'} />
      </OneOpen>
      <Hold jobId={callback.job.id} />
      <Contacts jobId={callback.job.id} callbackId={callback.id} />
      <History callback={callback} />
    </Page>
  );
}

const Said = ({ callback }: { callback: Callback }): ReactNode => (
  <>
    <Facts callback={callback} />
    <CameIn callback={callback} />
    <Assessed id={callback.id} />
  </>
);

const Concluding = ({ callback }: { callback: Callback }): ReactNode => (
  <>
    <Conclude callback={callback} />
    <Opinions callback={callback} />
  </>
);

function Facts({ callback: c }: { callback: Callback }): ReactNode {
  const bound = c.binding ? 'Yes: this person signed the agreement' : 'No: cap, notice clause and claim window bind only those who signed';
  return (
    <Section title="What was said">
      <p style={{ whiteSpace: 'pre-wrap' }}>{c.words}</p>
      <Details
        rows={[
          ['Who speaks', `${SPEAKERS[c.speaker]}${c.party ? `: ${c.party.name}` : ''}`],
          ...(c.party ? [['Reach them at', <Reach key="reach" phone={c.party.phone} email={c.party.email} />] as const] : []),
          [
            'Property',
            <>
              {`${c.job.address}, ${c.job.town} `}
              <TextLink to="/jobs/$jobId" params={{ jobId: c.job.id }}>{`job ${c.job.number}`}</TextLink>
            </>,
          ],
          [
            'Inspected',
            c.job.inspectedOn ? (
              <>
                <Day day={c.job.inspectedOn} />
                {` by ${listed([...new Set(c.job.pair.filter(({ visit }) => visit === null).map(({ name }) => name))], 'and')}`}
              </>
            ) : (
              'not yet'
            ),
          ],
          [
            'System and place',
            [(SYSTEMS as Record<string, string>)[c.system] ?? c.system, c.place].filter((word) => word !== '').join(', '),
          ],
          ...(c.remedySought ? [['What they ask for', c.remedySought] as const] : []),
          ['Received', <When at={c.receivedAt} />],
          ...(c.discoveredOn ? [['Noticed on', <Day day={c.discoveredOn} />] as const] : []),
          ...(c.deadlineOn ? [['Paper', <Paper key="paper" callback={c} />] as const] : []),
          ['Agreement binds', bound],
          [
            'Other callbacks here',
            c.others.length === 0
              ? 'None'
              : c.others.map((o) => (
                  <span key={o.id}>
                    <TextLink to="/callbacks/$callbackId" params={{ callbackId: o.id }}>
                      {o.number}
                    </TextLink>{' '}
                  </span>
                )),
          ],
        ]}
      />
    </Section>
  );
}

function Paper({ callback: { servedOn, serviceWay, deadlineOn } }: { callback: Callback }): ReactNode {
  return (
    <>
      {servedOn ? (
        <>
          served on <Day day={servedOn} />
          {serviceWay ? `, ${serviceWay}` : ''};{' '}
        </>
      ) : null}
      {deadlineOn ? (
        <>
          answer by <Day day={deadlineOn} />
        </>
      ) : null}
    </>
  );
}

function Reach({ phone, email }: { phone: string | null; email: string | null }): ReactNode {
  if (!phone && !email) return 'no phone and no e-mail on file';
  return (
    <>
      {phone ? <a href={`tel:${phone}`}>{phone}</a> : null}
      {phone && email ? ', ' : ''}
      {email ? <a href={`mailto:${email}`}>{email}</a> : null}
    </>
  );
}
