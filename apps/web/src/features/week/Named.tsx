// Names in full, below the board, the visit that is pointed at or walked to: on the board there is room for its start and its letter alone.
import { useEffect, useState, type ReactNode } from 'react';
import classes from './board.module.css';

/** For the eye: each visit says the same to whoever listens. */
export function Named({ rows }: { rows: { current: HTMLElement | null } }): ReactNode {
  const [text, setText] = useState<string | null>(null);
  useEffect(() => {
    const box = rows.current;
    const say = ({ target }: Event): void => {
      const visit = (target as Element).closest('[data-visit]');
      if (visit) setText(visit.getAttribute('aria-label'));
    };
    box?.addEventListener('focusin', say);
    box?.addEventListener('pointerover', say);
    return () => {
      box?.removeEventListener('focusin', say);
      box?.removeEventListener('pointerover', say);
    };
  }, [rows]);
  return (
    <p className={classes.named} aria-hidden="true">
      {text ?? 'Point at a visit, or walk to one with the arrows: it is named here.'}
    </p>
  );
}
