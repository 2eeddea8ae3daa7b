// The values of a form while they are typed, and each problem at its input.
import type { ChangeEvent } from 'react';
import { asProblem } from '../api/problemError.ts';
import { useDraft } from './draft.ts';

type Values = Record<string, unknown>;
type Typed = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

/** Id of an input. Forms that may show at the same time, as in a dialog over a page, have a scope of their own. */
export const inputId = (name: string, scope = 'field'): string => `${scope}-${name.replaceAll('.', '-')}`;

/** From so many inputs on, what is typed is kept until it is sent. */
const LONG = 4;

export type Fields<T extends Values> = ReturnType<typeof useFields<T>>;

/**
 * Fields of one form. Names are those of the body that is sent, so that the service's field problems find their input.
 * `labels` name the inputs, on screen and in the summary of problems; `error` is the mutation's error.
 * `scope` tells apart forms that show at the same time; give it to Form as well.
 * A long form keeps what is typed (`draft`, for Form); `of` names the thing that it is about where a screen has such a form for each of several
 * (given, a short form keeps too).
 */
export function useFields<T extends Values>(initial: T, labels: Record<keyof T & string, string>, error: unknown, scope?: string, of = '') {
  const names = Object.keys(initial);
  const keeps = of !== '' || names.length >= LONG;
  const { values, setValues, draft } = useDraft(initial, keeps ? [scope, of, ...names].join(' ') : null);
  const set = <K extends keyof T>(name: K, value: T[K]) => setValues((before) => ({ ...before, [name]: value }));
  const problems = asProblem(error)?.fields ?? [];
  const common = (name: keyof T & string) => ({
    id: inputId(name, scope),
    name,
    label: labels[name],
    error: problems.find(({ field }) => field === name || field.startsWith(`${name}.`))?.message,
  });
  return {
    values,
    setValues,
    set,
    labels,
    draft,
    /** For inputs whose onChange gives an event: TextInput, Textarea, PasswordInput, NativeSelect. */
    text: <K extends keyof T & string>(name: K) => ({
      ...common(name),
      value: values[name] as string,
      onChange: (event: ChangeEvent<Typed>) => set(name, event.currentTarget.value as T[K]),
    }),
    /** For Checkbox and Switch. */
    check: <K extends keyof T & string>(name: K) => ({
      ...common(name),
      checked: values[name] as boolean,
      onChange: (event: ChangeEvent<HTMLInputElement>) => set(name, event.currentTarget.checked as T[K]),
    }),
    /** For NumberInput: what is cleared is sent as nothing, for which the service asks, never as 0. */
    number: <K extends keyof T & string>(name: K) => ({
      ...common(name),
      value: values[name] as number | '',
      onChange: (typed: number | string) => set(name, (typed === '' ? '' : Number(typed)) as T[K]),
    }),
    /** For inputs whose onChange gives the value: NumberInput, Select, Checkbox.Group, Radio.Group. */
    value: <K extends keyof T & string>(name: K) => ({
      ...common(name),
      value: values[name],
      onChange: (value: T[K] | string | number) => set(name, value as T[K]),
    }),
  };
}
