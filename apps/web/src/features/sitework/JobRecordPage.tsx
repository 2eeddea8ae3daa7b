// The visits of a job and the site record of each.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { useMe } from '../../api/people.ts';
import { siteVisitsQuery } from '../../api/sitework.ts';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { kindName } from './words.ts';
import classes from './sitework.module.css';

const route = getRouteApi('/shell/jobs/$jobId/record');

/** ' 6 photos are here, 2 are on the way from the phones.'; nothing where none was taken. */
const sayPhotos = ({ here, onTheirWay }: { here: number; onTheirWay: number }): string => {
  const are = (count: number): string => `${count} ${count === 1 ? 'is' : 'are'}`;
  if (here + onTheirWay === 0) return '';
  const come = `${here} ${here === 1 ? 'photo is' : 'photos are'} here`;
  return onTheirWay === 0 ? ` ${come}.` : ` ${come}, ${are(onTheirWay)} on the way from the phones.`;
};

export function JobRecordPage(): ReactNode {
  const { jobId } = route.useParams();
  const me = useMe();
  const { data, error, isPending } = useQuery(siteVisitsQuery(jobId));
  const leads = me.roles.some((role) => role === 'owner' || role === 'lead_inspector');
  return (
    <Page
      title={data?.[0] ? `Site record: ${data[0].address}` : 'Site record'}
      width="narrow"
      about={data?.[0] ? `Job ${data[0].jobNumber}` : undefined}
      actions={
        <ButtonLink to="/jobs/$jobId/report" params={{ jobId }} variant="default">
          Report
        </ButtonLink>
      }
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      <ul className={classes.cards}>
        {(data ?? []).map((visit) => (
          <li key={visit.id} className={classes.card}>
            <h2>
              {kindName(visit.kind)}, <When at={visit.startsAt} until={visit.endsAt} />
            </h2>
            <p>{visit.pair.map(({ name }) => name).join(' and ')}</p>
            <p className={classes.soft}>
              {visit.recordState === 'sealed' ? 'The record is sealed.' : visit.recordId ? 'The record is open.' : 'Not started yet.'}
              {sayPhotos(visit.photos)}
            </p>
            <div className={classes.acts}>
              {visit.recordId && visit.recordState === 'sealed' && (visit.mine || leads) ? (
                <ButtonLink to="/records/$recordId/sealed" params={{ recordId: visit.recordId }} size="lg">
                  Sealed record
                </ButtonLink>
              ) : null}
              {visit.recordId && visit.recordState === 'open' && visit.mine ? (
                <ButtonLink to="/records/$recordId" params={{ recordId: visit.recordId }} size="lg">
                  Go on with the record
                </ButtonLink>
              ) : null}
              {!visit.recordId && visit.state === 'booked' && (visit.mine || leads) ? (
                <ButtonLink to="/visits/$visitId/start" params={{ visitId: visit.id }} size="lg">
                  Get ready to start
                </ButtonLink>
              ) : null}
            </div>
          </li>
        ))}
      </ul>
    </Page>
  );
}
