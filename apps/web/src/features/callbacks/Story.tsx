// The story of a callback from left to right: what was said, recorded and asked stays in sight beside the conclusion; what is finished folds to one line with its outcome.
import { useState, type ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import type { Callback, CallbackEvidence } from '@backsight/contract/callbacks';
import { evidenceQuery } from '../../api/callbacks.ts';
import { useOpened } from './oneOpen.tsx';
import { opensByItself, outcomeOf, paneOf, PARTS, partsForForm, partsOf, type Part } from './storyParts.ts';
import classes from './Story.module.css';

type Props = {
  callback: Callback;
  judge: boolean;
  /** What each part shows; that of `asked` stands in `recorded`. */ panes: Partial<Record<Part, ReactNode>>;
};
/** So few parts are read as they are. */
const FEW = 3;
const FACTS: readonly Part[] = ['said', 'recorded'];
const ACTS: readonly Part[] = ['done', 'cost', 'changed'];
const idOf = (part: Part): string => `story-${paneOf(part)}`;

export function Story({ callback, judge, panes }: Props): ReactNode {
  const parts = partsOf(callback, judge);
  const evidence = useQuery({ ...evidenceQuery(callback.id), enabled: parts.includes('recorded') }).data;
  const [pressed, setPressed] = useState<Partial<Record<Part, boolean>>>({});
  const needed = partsForForm(useOpened());
  if (parts.length < FEW) return parts.map((part) => <div key={part}>{panes[part]}</div>);
  // A part with an open form stays open, so that nothing typed is lost by folding it.
  const open = (part: Part): boolean => needed.includes(part) || (pressed[paneOf(part)] ?? opensByItself(part, callback));
  const toggle = (part: Part, opens = !open(part)): void => setPressed((now) => ({ ...now, [paneOf(part)]: opens }));
  const pane = (part: Part): ReactNode =>
    parts.includes(part) ? (
      <Pane key={part} part={part} open={open(part)} outcome={outcomeOf(part, callback, evidence)} onPress={() => toggle(part)}>
        {panes[part]}
      </Pane>
    ) : null;
  const beside = FACTS.some((part) => parts.includes(part) && open(part)) && open('concluded');
  return (
    <div className={classes.story}>
      <Strip parts={parts} open={open} callback={callback} evidence={evidence} onPress={toggle} />
      <div className={classes.case} data-beside={beside || undefined}>
        <div className={classes.facts}>{FACTS.map(pane)}</div>
        {pane('concluded')}
      </div>
      <div className={classes.acts}>{ACTS.map(pane)}</div>
    </div>
  );
}

type StripProps = {
  parts: readonly Part[];
  open: (part: Part) => boolean;
  callback: Callback;
  evidence: CallbackEvidence | undefined;
  onPress: (part: Part, opens?: boolean) => void;
};

/** Always in sight. Where there is room each part tells its outcome and is folded here; on a phone it is the way back to a part. */
function Strip({ parts, open, callback, evidence, onPress }: StripProps): ReactNode {
  const go = (part: Part): void => {
    const opens = window.matchMedia('(max-width: 74.99em)').matches || !open(part);
    onPress(part, opens);
    if (opens) requestAnimationFrame(() => document.getElementById(idOf(part))?.scrollIntoView({ block: 'start' }));
  };
  return (
    <nav aria-label="The story" className={classes.strip}>
      <ol>
        {parts.map((part) => (
          <li key={part}>
            <button type="button" aria-expanded={open(part)} aria-controls={idOf(part)} onClick={() => go(part)}>
              <strong>
                <span className={classes.long}>{PARTS[part][1]}</span>
                <span className={classes.brief}>{PARTS[part][0]}</span>
              </strong>
              <span className={classes.outcome}>{outcomeOf(part, callback, evidence)}</span>
            </button>
          </li>
        ))}
      </ol>
    </nav>
  );
}

type PaneProps = { part: Part; open: boolean; outcome: string; onPress: () => void; children: ReactNode };

/** Its head is pressed on a phone alone; where there is room the strip does it. */
function Pane({ part, open, outcome, onPress, children }: PaneProps): ReactNode {
  const title = part === 'recorded' ? 'What we recorded, and the procedure said' : PARTS[part][1];
  return (
    <div id={idOf(part)} className={classes.pane} data-part={part} data-open={open || undefined}>
      <button
        type="button"
        className={classes.head}
        aria-expanded={open}
        aria-label={open ? `Fold this part: ${title}` : undefined}
        onClick={onPress}
      >
        {open ? (
          <span>Fold this part</span>
        ) : (
          <>
            <strong>{title}</strong>
            <span>{outcome}</span>
          </>
        )}
      </button>
      {open ? children : null}
    </div>
  );
}
