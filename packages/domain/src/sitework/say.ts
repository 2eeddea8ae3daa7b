// What was recorded at a step, in plain words, for screens and for the report.
import type { Measures } from './accessLimits.ts';
import type { Evidence } from '../procedures/step.ts';
import { differenceOf } from './entry.ts';
import { OUTCOMES, REASONS, WITHOUT_PHOTO, type CouldNotReason, type EntryEvidence, type StepOutcome } from './value.ts';

export type SaidEntry = {
  outcome: StepOutcome;
  evidence: EntryEvidence | null;
  reason: CouldNotReason | null;
  measures?: Measures | null;
};

/** ' (headroom 16 in, opening 18 by 24 in)'; empty when nothing was measured. */
const sayMeasures = ({ headroomIn, widthIn, heightIn }: Measures): string => {
  const opening = [widthIn, heightIn].filter((side) => side !== undefined);
  const said = [
    ...(headroomIn === undefined ? [] : [`headroom ${headroomIn} in`]),
    ...(opening.length === 0 ? [] : [`opening ${opening.join(' by ')} in`]),
  ];
  return said.length === 0 ? '' : ` (${said.join(', ')})`;
};

const sayDone = (evidence: EntryEvidence, asked: Evidence): string => {
  switch (evidence.kind) {
    case 'confirm':
      return 'done';
    case 'reading':
      return `${evidence.value} ${evidence.unit}`;
    case 'difference':
      return `${differenceOf(evidence)} ${evidence.unit} (${evidence.first} to ${evidence.second})`;
    case 'count':
      return asked.kind === 'count' ? `${asked.of}: ${evidence.count}` : String(evidence.count);
    case 'choice':
      return (asked.kind === 'choice' ? asked.options.find(({ key }) => key === evidence.option)?.label : undefined) ?? evidence.option;
    case 'note':
      return 'noted';
    case 'photo':
      return evidence.without === undefined ? 'photo taken' : `no photo: ${WITHOUT_PHOTO[evidence.without]}`;
  }
};

/** The recorded answer: '54 PSI', 'windows operated: 1', 'trips and resets', 'could not be inspected: locked or sealed'. */
export const sayEntry = (entry: SaidEntry, asked: Evidence): string => {
  if (entry.outcome === 'done') return entry.evidence === null ? 'done' : sayDone(entry.evidence, asked);
  if (entry.reason === 'unsafe') return REASONS.unsafe; // says already what the outcome says
  return entry.reason === null
    ? OUTCOMES[entry.outcome]
    : `${OUTCOMES[entry.outcome]}: ${REASONS[entry.reason]}${sayMeasures(entry.measures ?? {})}`;
};

/** The expected range of a reading in words, or null where none is given. */
export const sayRange = (asked: Evidence): string | null => {
  if (asked.kind !== 'reading' && asked.kind !== 'difference') return null;
  const { expectedFrom: from, expectedTo: to, unit } = asked;
  if (from !== undefined && to !== undefined) return `usually ${from} to ${to} ${unit}`;
  if (from !== undefined) return `usually ${from} ${unit} or more`;
  return to === undefined ? null : `usually ${to} ${unit} or less`;
};
