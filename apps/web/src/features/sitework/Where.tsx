// Always in sight while recording: where one is, what is left here and in all, and what we changed that is not back.
import { useEffect, useRef, type ReactNode } from 'react';
import type { MemberRecord, SiteStep } from '@backsight/contract/sitework';
import type { KnownAct } from '@backsight/domain/sitework/act';
import { stillOpen } from '@backsight/domain/sitework/restore';
import { ButtonLink } from '../../ui/links.tsx';
import classes from './sitework.module.css';

type Props = {
  record: MemberRecord;
  acts: readonly KnownAct[];
  done: (step: SiteStep) => boolean;
  title: string | undefined;
  page: number;
};

export function Where({ record, acts, done, title, page }: Props): ReactNode {
  const top = useTop(page);
  const { steps } = record;
  const count = steps.filter(done).length;
  const here = steps.filter(({ procedureTitle }) => procedureTitle === title);
  const changed = stillOpen(acts).length;
  return (
    <div className={classes.where}>
      <p className={classes.progress} ref={top} tabIndex={-1}>
        <span>
          {count} of {steps.length} recorded
        </span>
        <span>{title}</span>
      </p>
      <div className={classes.bar} aria-hidden="true">
        <span style={{ width: `${steps.length === 0 ? 0 : (100 * count) / steps.length}%` }} />
      </div>
      {here.length > 0 ? (
        <p className={classes.left}>
          {steps.length - count} left, {here.filter((step) => !done(step)).length} of them here
        </p>
      ) : null}
      {changed > 0 ? (
        <ButtonLink to="/records/$recordId/restore" params={{ recordId: record.id }} variant="outline" size="md" fullWidth mt="xs">
          {changed === 1 ? 'One thing we changed is not back' : `${changed} things we changed are not back`}
        </ButtonLink>
      ) : null}
    </div>
  );
}

/** After going to another page it stands right under the strip, without the address above it; the focus starts at its head. */
function useTop(page: number) {
  const top = useRef<HTMLParagraphElement>(null);
  const shown = useRef(page);
  useEffect(() => {
    if (shown.current === page) return;
    shown.current = page;
    top.current?.focus({ preventScroll: true });
    top.current?.closest(`.${classes.work}`)?.scrollIntoView({ block: 'start' });
  }, [page]);
  return top;
}
