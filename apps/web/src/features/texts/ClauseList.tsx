// The clauses of a draft in their order; one at a time is open for editing.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { Clause } from '@backsight/contract/agreementTexts';
import { ClauseEditor, type Field } from './ClauseEditor.tsx';
import { blankClause, shifted } from './drafting.ts';
import classes from './texts.module.css';

type Props = {
  clauses: readonly Clause[];
  /** Keys of those that an attorney locked. */
  locked: readonly string[];
  fields: readonly Field[];
  services: Readonly<Record<string, string>>;
  onChange: (clauses: Clause[]) => void;
};

export function ClauseList({ clauses, locked, fields, services, onChange }: Props): ReactNode {
  const [open, setOpen] = useState<string | null>(null);
  const add = () => {
    const fresh = blankClause(clauses.map(({ key }) => key));
    onChange([...clauses, fresh]);
    setOpen(fresh.key);
  };
  return (
    <>
      {clauses.map((clause, at) => {
        const name = clause.title || `clause ${at + 1}, without a title`;
        const button = (label: string, act: () => void, disabled = false) => (
          <Button variant="default" size="compact-sm" aria-label={`${label}: ${name}`} disabled={disabled} onClick={act}>
            {label}
          </Button>
        );
        return (
          <div key={clause.key}>
            <div className={classes.row}>
              <span>
                {at + 1}. {name}
                {locked.includes(clause.key) ? <span className={classes.soft}> (locked: other words need a new review)</span> : null}
              </span>
              {button('Up', () => onChange(shifted(clauses, at, -1)), at === 0)}
              {button('Down', () => onChange(shifted(clauses, at, 1)), at === clauses.length - 1)}
              <Button
                variant="default"
                size="compact-sm"
                aria-expanded={open === clause.key}
                aria-label={`${open === clause.key ? 'Close' : 'Edit'}: ${name}`}
                onClick={() => setOpen(open === clause.key ? null : clause.key)}
              >
                {open === clause.key ? 'Close' : 'Edit'}
              </Button>
              {button('Remove', () => onChange(clauses.filter((one) => one !== clause)))}
            </div>
            {open === clause.key ? (
              <ClauseEditor
                clause={clause}
                fields={fields}
                services={services}
                onChange={(next) => onChange(clauses.map((one) => (one === clause ? next : one)))}
              />
            ) : null}
          </div>
        );
      })}
      <Button variant="default" mt="md" onClick={add}>
        Add a clause
      </Button>
    </>
  );
}
