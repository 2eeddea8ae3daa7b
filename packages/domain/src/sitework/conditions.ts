// The day's conditions, and what common practice says about running equipment in them. Hints, never verdicts: the maker's manual goes first.
import type { KnownAct, SiteAct } from './act.ts';
import { inOrder } from './inOrder.ts';

type Conditions = Extract<SiteAct, { do: 'conditions' }>;

/** The newest conditions on record; null while nobody has noted them. */
export const conditionsOf = (acts: readonly KnownAct[]): Conditions | null => {
  const last = inOrder(acts).findLast(({ act }) => act.do === 'conditions');
  return last?.act.do === 'conditions' ? last.act : null;
};

/** Below it, or where it recently was below it, cooling is not run: 60 to 65 F outdoors, common practice. */
export const NO_COOLING_BELOW_F = 60;
export const COOLING_CARE_BELOW_F = 65;
/** Above it a heat pump is not run in heat: 65 to 70 F outdoors, common practice. */
export const HEAT_PUMP_CARE_ABOVE_F = 65;
export const NO_HEAT_PUMP_ABOVE_F = 70;

/** Whether cooling may be run at an outdoor temperature in F, in words. */
export function coolingAdvice(outdoorF: number): { run: 'no' | 'care' | 'yes'; words: string } {
  if (outdoorF < NO_COOLING_BELOW_F)
    return {
      run: 'no',
      words: `It is ${outdoorF} F outdoors: cooling is not run below 60 to 65 F. Record it as not inspected, or offer a later look.`,
    };
  return outdoorF < COOLING_CARE_BELOW_F
    ? {
        run: 'care',
        words: `It is ${outdoorF} F outdoors: many do not run cooling below 65 F, nor after a night that was colder than 60 F.`,
      }
    : { run: 'yes', words: 'Read it after at least 15 minutes of running. The difference says nothing about the charge.' };
}

/** Whether a heat pump may be run in heat at an outdoor temperature in F, in words. */
export function heatPumpAdvice(outdoorF: number): { run: 'no' | 'care' | 'yes'; words: string } {
  if (outdoorF > NO_HEAT_PUMP_ABOVE_F)
    return { run: 'no', words: `It is ${outdoorF} F outdoors: a heat pump is not run in heat above 65 to 70 F.` };
  return outdoorF > HEAT_PUMP_CARE_ABOVE_F
    ? { run: 'care', words: `It is ${outdoorF} F outdoors: many do not run a heat pump in heat above 65 F.` }
    : { run: 'yes', words: '' };
}
