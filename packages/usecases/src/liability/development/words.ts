// Why the estimates are what they are, in sentences that an owner can check.
import { DateTime } from 'luxon';
import { METHOD_NAMES } from '@backsight/domain/liability/development/choice';
import type { Grain } from '@backsight/domain/liability/development/periods';
import type { Development } from '@backsight/domain/liability/development/triangle';
import { shortUsd } from '@backsight/domain/shared/money';
import type { Outlook } from './estimate.ts';

const day = (iso: string): string => DateTime.fromISO(iso, { zone: 'utc', locale: 'en-US' }).toFormat('LLL d, yyyy');
const OPINION = 'A planning estimate, not an actuarial opinion.';
const LONGER: Record<Grain, Grain | null> = { month: 'quarter', quarter: 'year', year: null };

/** The next longer period to look by, where one is; and the sentence that says so. */
export const longer = (grain: Grain): { to: Grain; sentence: string } | null => {
  const to = LONGER[grain];
  return to && { to, sentence: `By ${grain} it is too thin; look by ${to}.` };
};

type Asked = { chosen: boolean; said: boolean };

/** What was done, which method was taken and why, what it leaves out. `chosen`: one method for all was asked for; `said`: so was the expected amount. */
export function explain(of: Development, outlook: Outlook, { chosen, said }: Asked): string[] {
  return [
    methodSentence(of.grain, outlook, chosen),
    ...expectedSentence(of, outlook, said),
    ...patternSentences(of, outlook),
    ...outlook.pattern.cautions
      .filter(({ code }) => code === 'totals_fell' || outlook.origins.every(({ method }) => method === 'chain_ladder'))
      .map(({ sentence }) => sentence),
    errorSentence(of, outlook, said),
    OPINION,
  ];
}

function methodSentence(grain: Grain, { origins }: Outlook, chosen: boolean): string {
  const method = METHOD_NAMES[origins.find((each) => each.method !== 'chain_ladder')?.method ?? 'chain_ladder'];
  if (chosen) return `Every ${grain} is estimated by ${method}, as was asked.`;
  const young = origins.filter((each) => each.method !== 'chain_ladder').length;
  if (young === 0)
    return `Every ${grain} is estimated by chain ladder: what is known times what earlier ones grew by. Enough is known of each.`;
  const rest = origins.length - young;
  return `${count(young, grain)} ${young === 1 ? 'is' : 'are'} estimated by ${method}: ${young === 1 ? 'it has' : 'they have'} seen too little, and chain ladder would multiply a handful. ${
    rest === 0 ? 'None is' : `${count(rest, grain)} ${rest === 1 ? 'is' : 'are'}`
  } estimated by chain ladder: what is known times what earlier ones grew by.`;
}

const count = (n: number, grain: Grain): string => `${n} ${grain}${n === 1 ? '' : 's'}`;

function expectedSentence({ of }: Development, { origins, expectedPer100 }: Outlook, said: boolean): string[] {
  if (expectedPer100 === null) return [];
  const amount = of === 'callbacks' ? `${expectedPer100.toFixed(1)} callbacks` : shortUsd(Math.round(expectedPer100));
  const from = said
    ? 'as you said'
    : origins.some(({ method }) => method === 'bornhuetter_ferguson')
      ? 'as in those periods of which at least half is usually known'
      : 'all that is known, over all jobs as far as they have ripened';
  return [`${amount} are expected of 100 jobs: ${from}. What is still to come is the part of it that usually comes later.`];
}

function patternSentences({ grain, wholeUntil, asOf, origins }: Development, { pattern }: Outlook): string[] {
  const longest = pattern.shares.length - 1;
  return [
    `Shares come from ${grain}s that were over by ${day(wholeUntil)}${wholeUntil === asOf ? '' : `; within the ${grain} that runs they grow day by day`}.`,
    `No ${grain} that had anything was watched for longer than ${count(longest, grain)}: what comes later than that is not in it.`,
    ...(origins.some(({ whole }) => whole === 0) ? [`Of the ${grain} that runs only jobs already inspected count.`] : []),
  ];
}

function errorSentence({ wholeUntil, asOf }: Development, { error, noError, totals }: Outlook, said: boolean): string {
  if (noError !== null) return `The standard error: ${noError.replace(/^C/, 'c')}`;
  const range = totals.range === null ? '' : ' The range holds about 3 of 4 such cases.';
  if (error === 'mack')
    return `The standard error is Mack's${wholeUntil === asOf ? '' : `, as of ${day(wholeUntil)}`}: chance in what comes, and not knowing the factors better.${range}`;
  return `The standard error is chance in what comes${said ? '; what you expect is taken as certain' : ', and not knowing better what comes at each age'}. How much amounts scatter is itself only seen in what came: take it as the least.${range}`;
}
