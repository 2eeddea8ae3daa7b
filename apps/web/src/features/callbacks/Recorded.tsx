// The steps of the job's package with every entry, replaced ones too.
import type { ReactNode } from 'react';
import type { CallbackEvidence } from '@backsight/contract/callbacks';
import { sayNear } from '@backsight/domain/sitework/nearby';
import { useMe } from '../../api/people.ts';
import { fetchSpoken, photoAddress } from '../../api/photos.ts';
import { PhotoStrip } from '../../ui/PhotoStrip.tsx';
import { SpokenSound } from '../../ui/SpokenSound.tsx';
import { instantText } from '../../ui/time.ts';
import { When } from '../../ui/When.tsx';
import classes from './Story.module.css';

type Step = CallbackEvidence['steps'][number];
type Files = Pick<CallbackEvidence, 'photos' | 'spoken'>;
type Photo = Files['photos'][number];
const MATCHES: Record<string, string> = { outside: ' · outside the usual range', differs: ' · the counts differ' };

const COMPARED = {
  agree: 'Two independent looks: they agree.',
  differ: 'Two independent looks: they differ.',
  not_compared: 'Two independent looks, in words.',
  one_look: 'One look: the visit ended before the other of the pair could look.',
};

type Props = {
  steps: readonly Step[];
  files: Files;
  /** The step that was named in the conclusion: it comes first. */ traced: string | null;
};
/** So many gaps are read at a glance; more stand behind their number. */
const FEW = 8;

export function Recorded({ steps: all, files, traced }: Props): ReactNode {
  const steps = all.toSorted((a, b) => Number(b.stepKey === traced) - Number(a.stepKey === traced));
  const gaps = steps.filter(({ entries }) => entries.length === 0);
  return (
    <>
      <Steps steps={steps.filter(({ entries }) => entries.length > 0)} files={files} traced={traced} />
      {gaps.length > 0 ? (
        <details open={gaps.length <= FEW}>
          <summary>Nothing recorded ({gaps.length})</summary>
          <Steps steps={gaps} files={files} traced={traced} />
        </details>
      ) : null}
    </>
  );
}

function Steps({ steps, files, traced }: Props): ReactNode {
  return (
    <ul className={classes.steps}>
      {steps.map((step) => (
        <li key={`${step.stepKey}-${step.item}-${step.packageNumber}`} className={classes.step}>
          <div>
            <strong>{step.title}</strong>
            {step.item ? `, ${step.item}` : ''}
            {step.stepKey === traced ? <div className={classes.traced}>Named in the conclusion</div> : null}
            {step.comparison ? <div>{COMPARED[step.comparison]}</div> : null}
            {step.entries.map((entry) => (
              <Entry key={entry.id} entry={entry} files={files} />
            ))}
          </div>
          <div className={classes.asks}>
            <p>
              <strong>{`Revision ${step.revisionNumber} asked${step.partnerCheck ? ' both of the pair' : ''}:`}</strong>
              {` ${step.instruction}`}
            </p>
            {step.caution ? <p>{`Caution: ${step.caution}`}</p> : null}
          </div>
        </li>
      ))}
    </ul>
  );
}

function Entry({ entry: e, files }: { entry: Step['entries'][number]; files: Files }): ReactNode {
  const named = ({ entries }: { entries: readonly string[] }): boolean => entries.includes(e.id);
  const words = `${e.answer}${MATCHES[e.match] ?? ''}${e.note ? `. ${e.note}` : ''}`;
  return (
    <div>
      {e.superseded ? <s>{words}</s> : words}{' '}
      <small>
        {`${e.observedBy}${e.writtenBy === e.observedBy ? '' : `, written by ${e.writtenBy}`}, ${e.observedApprox ? 'about ' : ''}`}
        <When at={e.observedAt} />
        {e.superseded ? ' (replaced later)' : ''}
        {e.correction ? ` (correction: ${e.correction})` : ''}
      </small>
      <Photos photos={files.photos.filter(named)} />
      <Spoken notes={files.spoken.filter(named)} />
    </div>
  );
}

/** Each to be listened to; one that has not come is said. */
function Spoken({ notes }: { notes: Files['spoken'] }): ReactNode {
  const me = useMe();
  return notes.map(({ id, recordId, takenAt, by, seconds }) =>
    takenAt === null ? (
      <p key={id}>Spoken note of {by} that is not here</p>
    ) : (
      <SpokenSound
        key={id}
        words={`Spoken note, ${instantText(takenAt, me.zone)}, ${by}`}
        seconds={seconds}
        load={() => fetchSpoken(recordId, id)}
      />
    ),
  );
}

/** Small pictures; one that has not come is said. */
export function Photos({ photos }: { photos: readonly Photo[] }): ReactNode {
  const me = useMe();
  const said = ({ takenAt, by, near, nearLimitM }: Photo): string =>
    takenAt === null ? `Photo of ${by} that is not here` : `${instantText(takenAt, me.zone)}, ${by}; ${sayNear(near!, nearLimitM!)}`;
  return (
    <PhotoStrip
      photos={photos.map((photo, at) => ({
        id: photo.id,
        alt: `Photo ${at + 1}`,
        words: photo.about === null ? said(photo) : `${photo.about}: ${said(photo)}`,
        address:
          photo.takenAt === null
            ? null
            : { small: photoAddress(photo.recordId, photo.id, 'small'), full: photoAddress(photo.recordId, photo.id, 'full') },
      }))}
    />
  );
}
