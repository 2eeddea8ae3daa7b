// One spreadsheet, from its columns to what it brought; what shows is the next thing to do.
import { useState, type ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { RECORD_KINDS, type BringIn } from '@backsight/contract/firm/bringIns';
import { bringInQuery, isAtWork } from '../../api/bringIns.ts';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { Brought } from './Brought.tsx';
import { Looked } from './Looked.tsx';
import { MapColumns } from './MapColumns.tsx';
import { progressText, readAs, STATES } from './words.ts';
import classes from './bringIn.module.css';
import note from '../../ui/note.module.css';

const route = getRouteApi('/shell/bring-in/$bringInId');

export function BringInPage(): ReactNode {
  const { bringInId } = route.useParams();
  const { data, error, isPending } = useQuery(bringInQuery(bringInId));
  return (
    <Page
      title={data ? `${RECORD_KINDS[data.kind]}: ${data.name}` : 'Bring in records'}
      about={data ? <About of={data} /> : undefined}
      actions={
        <ButtonLink to="/bring-in" variant="default">
          All spreadsheets
        </ButtonLink>
      }
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? <Next key={data.version} of={data} /> : null}
    </Page>
  );
}

const About = ({ of }: { of: BringIn }): ReactNode => (
  <>
    {readAs(of)} · {STATES[of.state]} · taken in by {of.askedBy}, <When at={of.at} />
  </>
);

function Next({ of }: { of: BringIn }): ReactNode {
  const [columnsAgain, setColumnsAgain] = useState(false);
  if (isAtWork(of)) return <Progress of={of} />;
  if (of.state === 'to_map' || columnsAgain)
    return (
      <>
        <Note of={of} />
        <MapColumns of={of} />
      </>
    );
  if (of.state === 'checked')
    return (
      <>
        <Note of={of} />
        <Looked of={of} onColumns={() => setColumnsAgain(true)} />
      </>
    );
  return (
    <>
      <Note of={of} />
      <Brought of={of} />
    </>
  );
}

/** Why the last try did not come through. */
const Note = ({ of: { note: text } }: { of: BringIn }): ReactNode =>
  text === null ? null : (
    <div role="alert" className={note.problem}>
      <p>{text}</p>
    </div>
  );

/** One may leave the screen meanwhile: the service goes on. */
function Progress({ of: { progress } }: { of: BringIn }): ReactNode {
  return (
    <div className={classes.progress}>
      <p role="status">{progressText(progress)}</p>
      <progress
        aria-label="How far it is"
        max={Math.max(1, progress?.total ?? 1)}
        value={progress && progress.total > 0 ? progress.done : undefined}
      />
      <p>You can leave this screen; it goes on, and everything is brought in or nothing.</p>
    </div>
  );
}
