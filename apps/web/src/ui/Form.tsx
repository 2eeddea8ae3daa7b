// A form with one submit button and, after a refusal, a summary that takes the focus and leads to each input at fault.
import { useEffect, useRef, type FormEvent, type MouseEvent, type ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { asProblem, type FieldProblem } from '../api/problemError.ts';
import { whileSending, type Draft } from './draft.ts';
import { Kept } from './Kept.tsx';
import { focusOpened } from './opened.ts';
import { inputId } from './useFields.ts';
import classes from './note.module.css';

type Props = {
  /** The mutation's error. */
  error: unknown;
  /** Labels of the inputs by name, as given to useFields. */
  labels: Record<string, string>;
  /** As given to useFields. */
  scope?: string;
  /** `draft` of useFields: what is typed stays until it is sent, and the form says so when it finds it again. */
  draft?: Draft | null;
  /** Name of the act on the submit button. */
  submit: string;
  busy?: boolean;
  onSubmit: () => void;
  /** Beside the submit button: usually the way back. */
  besides?: ReactNode;
  /** Inside the summary: what one can do about this problem. */
  help?: ReactNode;
  children: ReactNode;
};

export function Form({ error, labels, scope, draft, submit, busy = false, onSubmit, besides, help, children }: Props): ReactNode {
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (!busy) whileSending(draft, onSubmit);
  };
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => focusOpened(form.current), []);
  return (
    <form ref={form} onSubmit={send} noValidate>
      <Summary error={error} labels={labels} scope={scope} help={help} />
      <Kept draft={draft} />
      {children}
      <Group mt="lg">
        <Button type="submit" loading={busy}>
          {submit}
        </Button>
        {besides}
      </Group>
    </form>
  );
}

type SummaryProps = Pick<Props, 'error' | 'labels' | 'scope' | 'help'>;

function Summary({ error, labels, scope, help }: SummaryProps): ReactNode {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (error) box.current?.focus();
  }, [error]);
  const problem = asProblem(error);
  if (!problem) return null;
  const listed = named(problem.problem.errors ?? [], labels);
  return (
    <div className={classes.problem} role="alert" tabIndex={-1} ref={box}>
      <p>{listed.length > 0 ? 'Not saved yet. Please look at:' : problem.message}</p>
      {listed.length > 0 ? (
        <ul>
          {listed.map(({ field, message }) => (
            <li key={field + message}>
              <FieldLink field={field} labels={labels} scope={scope} />
              {message}
            </li>
          ))}
        </ul>
      ) : null}
      {help}
    </div>
  );
}

/** One line for each input, in the order of the labels; what was made from an input that is at fault itself is left out. */
function named(errors: readonly FieldProblem[], labels: Record<string, string>): FieldProblem[] {
  const nameOf = (field: string): string => inputOf(field, labels);
  const own = errors.filter(({ field }) => nameOf(field) in labels);
  const order = Object.keys(labels);
  const lines = own.length > 0 ? own.toSorted((a, b) => order.indexOf(nameOf(a.field)) - order.indexOf(nameOf(b.field))) : errors;
  return lines.filter(({ field }, at) => lines.findIndex((other) => nameOf(other.field) === nameOf(field)) === at);
}

/** The input that a field belongs to: of 'office.hours.3' the one that is called so, else 'office.hours', else 'office'. */
function inputOf(field: string, labels: Record<string, string>): string {
  const parts = field.split('.');
  const within = parts.map((_, at) => parts.slice(0, parts.length - at).join('.'));
  return within.find((name) => name in labels) ?? parts[0]!;
}

function FieldLink({ field, labels, scope }: { field: string; labels: Record<string, string>; scope?: string }): ReactNode {
  const name = inputOf(field, labels);
  const label = labels[name];
  if (!label) return null;
  const go = (event: MouseEvent) => {
    event.preventDefault();
    const input = document.getElementById(inputId(name, scope));
    (input?.matches('input, select, textarea, button')
      ? input
      : input?.querySelector<HTMLElement>('input, select, textarea, button')
    )?.focus();
  };
  return (
    <>
      <a href={`#${inputId(name, scope)}`} onClick={go}>
        {label}
      </a>
      :{' '}
    </>
  );
}
