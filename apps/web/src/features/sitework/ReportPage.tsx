// The client's report of a job: when it is due, its versions, and to whom it was handed over.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { Register, Report } from '@backsight/contract/sitework/reports';
import { reportsQuery } from '../../api/sitework.ts';
import { Details } from '../../ui/Details.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Day, When } from '../../ui/When.tsx';
import { dayText } from '../../ui/time.ts';
import { DraftReport } from './DraftReport.tsx';
import { HandOver } from './HandOver.tsx';
import { HandOverGate } from './HandOverGate.tsx';
import { Recipients } from './Recipients.tsx';
import { ReportBody } from './ReportBody.tsx';
import { TakeInReport } from './TakeInReport.tsx';
import classes from './sitework.module.css';

const route = getRouteApi('/shell/jobs/$jobId/report');

export function ReportPage(): ReactNode {
  const { jobId } = route.useParams();
  const { data, error, isPending } = useQuery(reportsQuery(jobId));
  return (
    <Page
      title={data ? `Report: ${data.address}` : 'Report'}
      about={data ? `Job ${data.jobNumber}` : undefined}
      actions={
        <ButtonLink to="/jobs/$jobId/record" params={{ jobId }} variant="default">
          Site record
        </ButtonLink>
      }
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? <Versions register={data} /> : null}
    </Page>
  );
}

function Versions({ register }: { register: Register }): ReactNode {
  const handedOver = register.reports.some(({ deliveries }) => deliveries.length > 0);
  return (
    <>
      {register.dueAt && !handedOver ? (
        <div className={register.overdue ? classes.caution : classes.notice}>
          <p>
            {register.overdue ? 'Overdue: it was due' : 'Due'} <When at={register.dueAt} />: {register.dueWords}.
          </p>
        </div>
      ) : null}
      {handedOver ? null : <HandOverGate register={register} />}
      <Recipients register={register} />
      {register.reports.length === 0 ? (
        <Empty>No report yet. It is drafted from the sealed site record, or taken in as a PDF.</Empty>
      ) : null}
      {register.reports.map((report, at) => (
        <Version key={report.id} report={report} register={register} newest={at === 0} />
      ))}
      {register.sealed ? (
        <DraftReport register={register} />
      ) : (
        <p className={classes.soft}>The site record is not sealed yet; a draft can be made after that.</p>
      )}
      {register.inspectedOn ? <TakeInReport register={register} /> : null}
    </>
  );
}

const named = ({ people }: Report, did: 'inspected' | 'prepared'): string =>
  people
    .filter((one) => one.did === did)
    .map(({ name, license, until }) => (license ? `${name} (license ${license}${until ? `, valid until ${dayText(until)}` : ''})` : name))
    .join(' and ');

/** The file is sealed at the first hand-over. A report handed over before files were sealed has none of that day, and that is said. */
function OnPaper({ report: { id, sealed, deliveries } }: { report: Report }): ReactNode {
  const first = deliveries.map(({ deliveredAt }) => Date.parse(deliveredAt)).toSorted((a, b) => a - b)[0];
  const late = sealed !== null && first !== undefined && Date.parse(sealed.at) > first;
  return (
    <>
      <a href={`/api/reports/${id}/paper`}>{sealed && !late ? 'The report as it was handed over (PDF)' : 'The report as a PDF'}</a>{' '}
      {sealed ? <span className={classes.code}>{sealed.sha256}</span> : null}
      {late ? (
        <span className={classes.soft}>
          {' '}
          Sealed <When at={sealed.at} />, after it was first handed over: the words are those of the report, the file is of that day.
        </span>
      ) : null}
      {!sealed && first !== undefined ? (
        <span className={classes.soft}>
          It was handed over before files were sealed: the file is drawn up anew from the words kept, and is sealed when it is handed over
          again.
        </span>
      ) : null}
    </>
  );
}

const METHODS: Record<string, string> = { mail: 'sent by mail', own_mail: 'sent from our own mail program', paper: 'on paper' };

function Version({ report, register, newest }: { report: Report; register: Register; newest: boolean }): ReactNode {
  return (
    <section className={classes.card} style={{ marginBottom: 'var(--bs-space-6)' }}>
      <h2>Version {report.version}</h2>
      <Details
        rows={[
          [
            'Inspected',
            <>
              <Day key="i" day={report.inspectedOn} /> by {named(report, 'inspected')}
            </>,
          ],
          ['Completed', <Day key="c" day={report.completedOn} />],
          ['Report date', <Day key="r" day={report.reportOn} />],
          ...(report.revisedOn ? [['Revised', <Day key="v" day={report.revisedOn} />] as const] : []),
          ['Prepared by', named(report, 'prepared')],
          ...(report.registerNo === null ? [] : [['In the register', `number ${report.registerNo}`] as const]),
          ...(report.fileSha256
            ? [
                [
                  'File',
                  <>
                    <a key="f" href={`/api/reports/${report.id}/file`}>
                      {report.fileName}
                    </a>{' '}
                    <span className={classes.code}>{report.fileSha256}</span>
                  </>,
                ] as const,
              ]
            : [['On paper', <OnPaper key="p" report={report} />] as const]),
        ]}
      />
      <h3>Handed over</h3>
      {report.deliveries.length === 0 ? (
        <p className={classes.soft}>To nobody yet.</p>
      ) : (
        <ul>
          {report.deliveries.map((d) => (
            <li key={d.id}>
              {d.name}, <When at={d.deliveredAt} />, {METHODS[d.method] ?? d.method}
            </li>
          ))}
        </ul>
      )}
      {newest ? <HandOver report={report} register={register} /> : null}
      {report.body ? <ReportBody body={report.body} /> : null}
    </section>
  );
}
