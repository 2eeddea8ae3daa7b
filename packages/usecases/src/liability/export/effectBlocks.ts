// Whether the newest changes worked, on paper: before and after with where each rate likely lies, and what can be said of it by then.
import type { Block } from '@backsight/documents/pdf/content';
import type { QuarterFacts } from './quarterFacts.ts';

type Effects = QuarterFacts['effects'];
type StepEffect = Effects[number]['steps'][number];
const whole = (n: number): string => n.toLocaleString('en-US');
const text = (words: string): Block => ({ kind: 'text', words });

/** In 1,000 jobs with its 95 % limits. */
function rateText(rate: StepEffect['before']['rate']): string {
  if (!rate) return 'no job old enough';
  const of = (value: number): string => (value * 1000).toLocaleString('en-US', { maximumFractionDigits: 1 });
  return `${of(rate.rate)} (${of(rate.lower)} to ${of(rate.upper)})`;
}
/** Sealed records whose evidence meets the step, with 95 % limits. */
function metText(share: StepEffect['working']['before']): string {
  if (!share) return 'none sealed';
  const percent = (value: number): string => `${Math.round(value * 100)}`;
  return `${whole(share.count)} of ${whole(share.total)}: ${percent(share.count / share.total)} % (${percent(share.lower)} to ${percent(share.upper)})`;
}
const rowOf = (when: string, span: StepEffect['before'], met: StepEffect['working']['before']): string[] => [
  when,
  whole(span.jobs),
  whole(span.failures),
  rateText(span.rate),
  metText(met),
];

const stepBlocks = (action: Effects[number]['action'], step: StepEffect): Block[] => [
  { kind: 'heading', level: 4, words: `Action ${action.number}, ${step.title}` },
  {
    kind: 'table',
    heads: ['', 'Jobs', 'Traced', 'In 1,000 jobs (95 %)', 'Records that meet it (95 %)'],
    rows: [rowOf('Before', step.before, step.working.before), rowOf('After', step.after, step.working.after)],
    amounts: [1, 2, 3, 4],
    shares: [1.1, 0.8, 0.8, 1.7, 2.2],
  },
  text(step.rates.sentence),
];

/** `until`: the ISO day by whose end this is told. */
export function effectBlocks(effects: Effects, until: string): Block[] {
  const told = effects.filter(({ steps }) => steps.length > 0);
  if (told.length === 0) return [];
  const days = told[0]!.followUpDays;
  return [
    { kind: 'heading', level: 3, words: `Did the newest changes help? As of ${until}` },
    ...told.flatMap(({ action, steps }) => steps.flatMap((step) => stepBlocks(action, step))),
    {
      kind: 'text',
      small: true,
      words: `A job counts when it is ${days} days old, with the callbacks that came within those days: before and after are given the same time. More stands with each corrective action.`,
    },
  ];
}
