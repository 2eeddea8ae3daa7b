// A question with large answers, any number of them: native check boxes.
import type { ReactNode } from 'react';
import classes from './sitework.module.css';

type Props<K extends string> = {
  legend: string;
  options: readonly { key: K; label: string }[];
  value: readonly K[];
  onChange: (keys: K[]) => void;
};

export const Ticks = <K extends string>({ legend, options, value, onChange }: Props<K>): ReactNode => (
  <fieldset className={classes.set}>
    <legend>{legend}</legend>
    {options.map(({ key, label }) => (
      <label key={key} className={classes.option}>
        <input
          type="checkbox"
          checked={value.includes(key)}
          onChange={(event) => onChange(event.currentTarget.checked ? [...value, key] : value.filter((one) => one !== key))}
        />
        {label}
      </label>
    ))}
  </fieldset>
);
