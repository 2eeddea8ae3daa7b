// The state of the house, and what its rules say about the agreement.
import type { ReactNode } from 'react';
import { NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { packOn, rowsOn, type Topic } from '@backsight/domain/shared/rulePack';
import { STATE_CHOICES, stateName } from '@backsight/domain/shared/stateOfZip';
import { rulePacksQuery } from '../../api/agreementTexts.ts';
import { useMe } from '../../api/people.ts';
import { dayAsked, type Draft } from './draft.ts';
import { useHouseState } from './useHouseState.ts';
import classes from './booking.module.css';

export function StateInput({ draft, change }: { draft: Draft; change: (part: Partial<Draft>) => void }): ReactNode {
  const { state, onFile } = useHouseState(draft);
  // Until it is known whose state it is, none is shown.
  const known = STATE_CHOICES.some(({ value }) => value === state);
  return (
    <NativeSelect
      label="State"
      description={onFile ? 'As on file; it is set on the page of a job.' : undefined}
      inputWrapperOrder={['label', 'input', 'description', 'error']}
      value={state}
      disabled={onFile}
      onChange={(event) => change({ state: event.currentTarget.value })}
      data={known ? STATE_CHOICES : [{ value: state, label: stateName(state) }, ...STATE_CHOICES]}
    />
  );
}

/** What a caller may be told about the agreement, and what makes a state unlike the firm's own. */
const TOLD: readonly Topic[] = ['agreement', 'cap', 'claim', 'report'];

/** Folded away for a state that the firm has taken up. */
export function StateRules({ draft }: { draft: Draft }): ReactNode {
  const { zone } = useMe();
  const { state } = useHouseState(draft);
  const rules = useQuery(rulePacksQuery).data;
  if (!rules || state === '') return null;
  const { day } = dayAsked(draft, zone);
  const pack = packOn(rules.packs, state, day);
  const name = pack?.name || stateName(state);
  const taken = rules.states.includes(state);
  return (
    <>
      {taken ? null : (
        <p role="status" className={classes.gone}>
          The firm has not taken up the rules of {name}: its agreement texts were not held against them. {pack ? '' : 'None are on file. '}
          Ask an attorney before the agreement goes out.
        </p>
      )}
      {pack ? (
        <details key={state} open={!taken} className={classes.stateRules}>
          <summary>Rules of {name} for the agreement</summary>
          <dl>
            {rowsOn(pack.rows, day)
              .filter(({ topic }) => TOLD.includes(topic))
              .map((row) => (
                <div key={row.key}>
                  <dt>{row.topicWords}</dt>
                  <dd>
                    {row.words}{' '}
                    <span className={classes.soft}>
                      {row.citation}
                      {row.certainty === 'found' ? '' : `; ${row.certaintyWords}`}
                    </span>
                  </dd>
                </div>
              ))}
          </dl>
        </details>
      ) : null}
    </>
  );
}
