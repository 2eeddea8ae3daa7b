// Three answers to one question side by side, each with its proof; one of them is looked at and accepted.
import type { ReactNode } from 'react';
import type { PlanVariantAnswer, ShownPlan } from '@backsight/contract/plans';
import { changesOf } from './changes.ts';
import classes from './plans.module.css';
import { minutesText } from '../../ui/minutes.ts';
import { VARIANT } from './words.ts';

type Key = PlanVariantAnswer['key'];
type Props = { plan: ShownPlan; variants: readonly PlanVariantAnswer[]; chosen: Key; choose: (key: Key) => void };

export function Variants({ plan, variants, chosen, choose }: Props): ReactNode {
  return (
    <fieldset className={classes.three}>
      <legend className={classes.soft}>Choose one to look at; accept it below.</legend>
      {variants.map((variant) => (
        <label key={variant.key} className={classes.way}>
          <input
            type="radio"
            name="way"
            checked={variant.key === chosen}
            disabled={plan.accepted.length > 0 && !plan.accepted[0]!.startsWith(`${variant.key}/`)}
            onChange={() => choose(variant.key)}
          />{' '}
          <strong>{VARIANT[variant.key]}</strong>
          <Figures variant={variant} travelWeight={plan.weights.travel} />
        </label>
      ))}
    </fieldset>
  );
}

function Figures({ variant: { days }, travelWeight }: { variant: PlanVariantAnswer; travelWeight: number }): ReactNode {
  const sum = (of: (day: PlanVariantAnswer['days'][number]) => number): number => days.reduce((total, day) => total + of(day), 0);
  const moves = days.flatMap(({ groups }) => groups.flatMap((group) => group.moves));
  const { starts, people, swaps } = changesOf(moves);
  const rows: [string, ReactNode][] = [
    ['Visits that stay as they are', sum(({ visits }) => visits) - moves.length],
    ['Starts that move', starts],
    ['Visits with other people', people],
    ['Same pair, other first', swaps],
    ['Without a place', sum(({ leftOut }) => leftOut.length)],
    ['Driving', minutesText(sum(({ parts }) => parts.travel) / travelWeight)],
    [
      'With waiting, overtime, uneven load',
      minutesText(sum(({ parts }) => parts.travel + parts.wait + parts.overtime + parts.fairness + parts.pairing)),
    ],
  ];
  return (
    <>
      <dl>
        {rows.map(([name, value]) => (
          <div key={name} style={{ display: 'contents' }}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <p>{days.every(({ proven }) => proven) ? 'Proven: no plan is better in this way.' : 'Not proven: see the days below.'}</p>
    </>
  );
}
