// A question with large answers, one to choose: native radio buttons, so that keyboard and screen readers work as everywhere.
import type { ReactNode } from 'react';
import classes from './sitework.module.css';

type Props<K extends string> = {
  legend: string;
  name: string;
  options: readonly { key: K; label: string }[];
  value: K | null | '';
  onChange: (key: K) => void;
  two?: boolean;
};

export function Choices<K extends string>({ legend, name, options, value, onChange, two = false }: Props<K>): ReactNode {
  return (
    <fieldset className={classes.set}>
      <legend>{legend}</legend>
      <div className={two ? classes.pairwise : undefined}>
        {options.map(({ key, label }) => (
          <label key={key} className={classes.option}>
            <input type="radio" name={name} value={key} checked={value === key} onChange={() => onChange(key)} />
            {label}
          </label>
        ))}
      </div>
    </fieldset>
  );
}
