// What whoever is alerted opens from the mail: where, who spoke, how to reach them, and "I have it".
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { SPEAKERS } from '@backsight/contract/callbacks';
import { dangerQuery } from '../../api/callbackClocks.ts';
import { useMe } from '../../api/people.ts';
import { Details } from '../../ui/Details.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Alerts } from './Alerts.tsx';
import { atTheDesk, SYSTEMS } from './words.ts';

const route = getRouteApi('/shell/danger/$callbackId');

export function DangerPage(): ReactNode {
  const { callbackId } = route.useParams();
  const me = useMe();
  const { data, error, isPending } = useQuery(dangerQuery(callbackId));
  return (
    <Page
      title={data ? `Danger: callback ${data.number}` : 'Danger'}
      width="narrow"
      about="Danger to life: 911 comes first. Then call back whoever spoke."
      actions={
        atTheDesk(me.roles) ? (
          <TextLink to="/callbacks/$callbackId" params={{ callbackId }}>
            The callback
          </TextLink>
        ) : undefined
      }
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? (
        <>
          <p style={{ whiteSpace: 'pre-wrap' }}>{data.words}</p>
          <Details
            rows={[
              ['Who speaks', `${SPEAKERS[data.speaker]}${data.party ? `: ${data.party.name}` : ''}`],
              ['Call', data.party?.phone ? <a href={`tel:${data.party.phone}`}>{data.party.phone}</a> : 'no phone on file'],
              ['Property', `${data.address}, ${data.town}`],
              [
                'Place',
                [(SYSTEMS as Record<string, string>)[data.system] ?? data.system, data.place].filter((word) => word !== '').join(', '),
              ],
              ['Marked as a danger', data.safety ? 'yes' : 'no longer'],
            ]}
          />
          <Alerts danger={data} />
        </>
      ) : null}
    </Page>
  );
}
