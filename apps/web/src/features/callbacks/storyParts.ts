// The story of a callback in seven parts, from what was said to what is changed: what each came to, and which stand open.
import { CAUSES, REMEDIES, REMEDY_STATES, type Callback, type CallbackEvidence } from '@backsight/contract/callbacks';
import { formatUsd } from '@backsight/domain/shared/money';

export const PARTS = {
  said: ['Said', 'What was said'],
  recorded: ['Recorded', 'What we recorded'],
  asked: ['Asked', 'What the procedure said'],
  concluded: ['Why', 'What we conclude'],
  done: ['Do', 'What we do'],
  cost: ['Cost', 'What it costs'],
  changed: ['Change', 'What we change'],
} as const;
export type Part = keyof typeof PARTS;

/** Recorded and asked stand side by side, step by step: they open and fold as one. */
export const paneOf = (part: Part): Part => (part === 'asked' ? 'recorded' : part);

type Of = Pick<Callback, 'kind' | 'state' | 'words' | 'conclusions' | 'remedies' | 'money' | 'actions'>;

/** The parts that there are for whoever looks; `judge`: owner or lead inspector. */
export function partsOf({ kind, money, actions }: Of, judge: boolean): Part[] {
  const judged = judge && kind !== 'question';
  const remedied = kind !== 'question' && kind !== 'near_miss';
  const there: Record<Part, boolean> = {
    said: true,
    recorded: judged,
    asked: judged,
    concluded: judged,
    done: remedied,
    cost: money !== undefined,
    changed: actions !== undefined,
  };
  return (Object.keys(PARTS) as Part[]).filter((part) => there[part]);
}

const waits = ({ conclusions: [newest] = [] }: Of): boolean => newest === undefined || (newest.needsConfirmation && !newest.confirmedAt);

/** Whether a part stands open by itself: the facts until somebody stands behind a conclusion, then what follows from it, and nothing once all is closed. */
export function opensByItself(part: Part, of: Of): boolean {
  if (of.state === 'closed') return false;
  const facts = part === 'said' || part === 'recorded' || part === 'asked' || part === 'concluded';
  return facts ? waits(of) : (of.conclusions ?? []).length > 0;
}

const OF_COST = /^(reserve|clear|recover|notify|policy|court|(back|case|pay-case)-.+)$/;
const OF_REMEDY = /^(remedy|estimate|(visit|pay|offer|end-offer|amend|decide|paper)-.+)$/;

/** The parts that an open form needs: its own, and beside a conclusion what it is drawn from. */
export function partsForForm(form: string | null): readonly Part[] {
  if (form === null) return [];
  if (form === 'conclude' || form === 'confirm') return ['said', 'recorded', 'asked', 'concluded'];
  if (form === 'counsel') return ['concluded'];
  if (form === 'action' || form.startsWith('draft-')) return ['changed'];
  if (form === 'link' || form === 'job') return ['said'];
  return OF_COST.test(form) ? ['cost'] : OF_REMEDY.test(form) ? ['done'] : [];
}

const MOST = 90;
const short = (words: string): string => (words.length <= MOST ? words : `${words.slice(0, words.lastIndexOf(' ', MOST))} ...`);
const count = (n: number, one: string): string => `${n} ${n === 1 ? one : one.endsWith('y') ? `${one.slice(0, -1)}ies` : `${one}s`}`;

/** One line of what a part came to; '' while that is not known yet. */
export function outcomeOf(part: Part, of: Of, evidence: CallbackEvidence | undefined): string {
  const [newest] = of.conclusions ?? [];
  switch (part) {
    case 'said':
      return short(of.words);
    case 'recorded':
      return evidence ? recordedText(evidence, newest?.stepKey ?? null) : '';
    case 'asked': {
      const asked = evidence?.steps.find(({ stepKey }) => stepKey === newest?.stepKey)?.instruction;
      if (newest?.stepKey) return `${newest.procedureTitle}, revision ${newest.revisionNumber}${asked ? `: ${short(asked)}` : ''}`;
      return evidence ? `${count(evidence.steps.length, 'step')} to do at this house` : '';
    }
    case 'concluded':
      return newest ? conclusionText(newest, waits(of)) : 'Not concluded yet';
    case 'done':
      return (
        of.remedies.map((r) => `${REMEDIES[r.kind]}${r.cents > 0 ? ` ${formatUsd(r.cents)}` : ''}, ${REMEDY_STATES[r.state]}`).join('; ') ||
        'Nothing yet'
      );
    case 'cost':
      return of.money ? `${formatUsd(of.money.paidCents)} paid, ${formatUsd(of.money.reservedCents)} set aside` : '';
    case 'changed':
      return (of.actions ?? []).map(({ number, title, state }) => `${number}: ${title}, ${state}`).join('; ') || 'Nothing yet';
  }
}

/** At the traced step what stands there now; else how much there is. */
function recordedText({ steps, reports }: CallbackEvidence, traced: string | null): string {
  const there = steps.filter(({ stepKey }) => stepKey === traced);
  const answers = there.flatMap(({ entries }) => entries.filter(({ superseded }) => !superseded).map(({ answer }) => answer));
  if (there.length > 0)
    return answers.length > 0 ? `At the traced step: ${short([...new Set(answers)].join('; '))}` : 'Nothing at the traced step';
  const entries = steps.reduce((sum, step) => sum + step.entries.length, 0);
  return `${count(entries, 'entry')}; ${reports.length > 0 ? 'report' : 'no report'} on file`;
}

function conclusionText({ cause, stepKey, stepTitle }: NonNullable<Callback['conclusions']>[number], waiting: boolean): string {
  const why = (CAUSES as Record<string, string>)[cause] ?? cause;
  return `${why}${stepKey ? `. Traced step: ${stepTitle ?? stepKey}` : ''}${waiting ? '. Waits to be confirmed' : ''}`;
}
