// The go-to box: '/' or Ctrl+K from anywhere, then a property, client, job, callback, step, person or screen by its words or number.
// A combobox with a list as in the ARIA Authoring Practices: the focus stays in the input, the chosen line is named to it.
import { useEffect, useId, useRef, useState, type KeyboardEvent, type ReactNode } from 'react';
import { VisuallyHidden } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useQuery } from '@tanstack/react-query';
import { useRouter } from '@tanstack/react-router';
import { findQuery } from '../../api/find.ts';
import { keptSearchesQuery } from '../../api/keptSearches.ts';
import { useMe } from '../../api/people.ts';
import { recentPlaces } from '../../api/phone/recent.ts';
import { asProblem } from '../../api/problemError.ts';
import { choicesFor, keptChoices, recentChoices, type Choice } from './choices.ts';
import { Choices } from './Choices.tsx';
import { useOpeningKeys } from './useOpeningKeys.ts';
import classes from './goTo.module.css';

/** Milliseconds after the last key until the service is asked. */
const PAUSE = 90;

/** `words` is what stands in the box, and the way to change it. */
export function GoTo({ words: [typed, setTyped] }: { words: [string, (words: string) => void] }): ReactNode {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  useOpeningKeys(input);
  const [open, setOpen] = useState(false);
  const [active, setActive] = useState(0);
  const { choices, said, problem, settled } = useChoices(typed.trim(), open);
  const go = useGo(() => {
    setOpen(false);
    setTyped('');
    input.current?.blur();
  });
  const wanted = useWanted(settled ? choices[0] : undefined, settled, go);
  const at = Math.min(active, choices.length - 1);
  const onKey = (event: KeyboardEvent) => {
    const moved = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (moved !== undefined) {
      setActive(open && choices.length > 0 ? (at + moved + choices.length) % choices.length : 0);
      setOpen(true);
    } else if (event.key === 'Enter' && typed.trim() !== '') {
      if (settled && choices[at]) go(choices[at]);
      else wanted();
    } else if (event.key === 'Enter' && choices[at]) go(choices[at]);
    else if (event.key === 'Escape') {
      if (open) setOpen(false);
      else setTyped('');
    } else return;
    event.preventDefault();
  };
  const shown = open && (choices.length > 0 || problem !== '' || (settled && typed.trim() !== ''));
  return (
    <search className={classes.box} aria-label="Everything">
      <input
        ref={input}
        className={classes.input}
        role="combobox"
        aria-label="Go to"
        aria-autocomplete="list"
        aria-expanded={shown}
        aria-controls={`${id}-list`}
        aria-activedescendant={shown && choices[at] ? `${id}-${at}` : undefined}
        placeholder="Go to ... ( / )"
        autoComplete="off"
        spellCheck={false}
        enterKeyHint="go"
        maxLength={100}
        value={typed}
        onChange={(event) => {
          setTyped(event.currentTarget.value);
          setActive(0);
          setOpen(true);
        }}
        onFocus={() => setOpen(true)}
        onBlur={() => setOpen(false)}
        onKeyDown={onKey}
      />
      {open ? <VisuallyHidden role="status">{said}</VisuallyHidden> : null}
      <Choices id={id} shown={shown} choices={choices} active={at} typed={typed.trim()} said={problem || said} onChoose={go} />
    </search>
  );
}

/** What there is to choose; `settled` once it belongs to what stands in the input. */
function useChoices(typed: string, open: boolean): { choices: Choice[]; said: string; problem: string; settled: boolean } {
  const me = useMe();
  const [asked] = useDebouncedValue(typed, PAUSE);
  const found = useQuery({ ...findQuery(asked), enabled: open && asked !== '' });
  const kept = keptChoices(typed, useQuery({ ...keptSearchesQuery, enabled: open }).data ?? []);
  if (typed === '') {
    const places = open ? recentChoices(recentPlaces(me.id)) : [];
    const said = [
      places.length > 0 ? `${places.length} places where you were last` : '',
      kept.length > 0 ? `${kept.length} kept searches` : '',
    ];
    return { choices: open ? [...places, ...kept] : [], said: said.filter(Boolean).join(', '), problem: '', settled: true };
  }
  const problem = found.error && !found.isFetching ? (asProblem(found.error)?.message ?? 'This could not be looked up.') : '';
  const choices = [...kept, ...choicesFor(typed, me.roles, found.data?.items ?? [])];
  const settled = asked === typed && !found.isPlaceholderData && (found.isSuccess || found.isError);
  const said =
    choices.length === 0
      ? 'Nothing that you may see has these words. Try fewer of them, at least three letters, or a number.'
      : found.data?.near
        ? `Nothing has these words; ${choices.length} spelled nearly so`
        : `${choices.length} found`;
  return { choices, said: settled ? said : '', problem, settled };
}

function useGo(done: () => void): (choice: Choice) => void {
  const router = useRouter();
  return ({ href }) => {
    done();
    void router.navigate({ href });
  };
}

/** Whoever presses Enter faster than the answer comes goes to its first line when it is there. */
function useWanted(first: Choice | undefined, settled: boolean, go: (choice: Choice) => void): () => void {
  const waits = useRef(false);
  useEffect(() => {
    if (!settled || !waits.current) return;
    waits.current = false;
    if (first) go(first);
  }, [settled, first, go]);
  return () => {
    waits.current = true;
  };
}
