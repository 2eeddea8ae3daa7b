// The way of a callback from received to closed: which act is possible in which state.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import { needsConclusion, STATES, type Kind, type State } from './words.ts';

export type Move = 'acknowledge' | 'look_into' | 'conclude' | 'propose' | 'agree' | 'close' | 'reopen' | 'money';

const FROM: Record<Move, readonly State[]> = {
  acknowledge: ['received'],
  look_into: ['received', 'acknowledged', 'looking_into', 'concluded', 'remedy_agreed'],
  conclude: ['acknowledged', 'looking_into', 'concluded', 'remedy_agreed'],
  propose: ['acknowledged', 'looking_into', 'concluded', 'remedy_agreed'],
  agree: ['acknowledged', 'looking_into', 'concluded', 'remedy_agreed'],
  close: ['concluded', 'remedy_agreed'],
  reopen: ['closed'],
  money: ['received', 'acknowledged', 'looking_into', 'concluded', 'remedy_agreed'],
};

const OPEN: readonly State[] = ['received', 'acknowledged', 'looking_into', 'concluded', 'remedy_agreed'];

/** States from which the act is possible for this kind: near-misses are concluded at once, what is only answered closes without a conclusion. */
export function statesFor(move: Move, kind: Kind): readonly State[] {
  if (move === 'conclude' && kind === 'near_miss') return OPEN;
  if (move === 'close' && !needsConclusion(kind)) return OPEN;
  return FROM[move];
}

/** The state after an act, or why it is not possible now. */
export function moveTo(callback: { state: State; kind: Kind }, move: Move): Outcome<State> {
  const { kind } = callback;
  if (kind === 'question' && ['conclude', 'propose', 'agree', 'money'].includes(move)) return refuse('question-is-no-callback');
  if (kind === 'near_miss' && ['propose', 'agree', 'money'].includes(move)) return refuse('near-miss-costs-nothing');
  const from = statesFor(move, kind);
  if (!from.includes(callback.state)) {
    const needed = from.map((state) => STATES[state]).join(' or ');
    if (move === 'close' && callback.state !== 'closed') return refuse('conclusion-missing');
    return refuse('callback-state', { state: STATES[callback.state], needed });
  }
  return accept(after(callback.state, move));
}

function after(state: State, move: Move): State {
  switch (move) {
    case 'acknowledge':
      return 'acknowledged';
    case 'look_into':
      return state === 'received' || state === 'acknowledged' ? 'looking_into' : state;
    case 'reopen':
      return 'looking_into';
    case 'conclude':
      return state === 'remedy_agreed' ? state : 'concluded';
    case 'agree':
      return state === 'concluded' ? 'remedy_agreed' : state;
    case 'close':
      return 'closed';
    default:
      return state;
  }
}

/** What must be settled before a callback is closed. */
export function mayClose(callback: { state: State; kind: Kind }, open: { reservedCents: number; openRemedies: number }): Outcome<State> {
  const next = moveTo(callback, 'close');
  if (!next.ok) return next;
  if (open.openRemedies > 0) return refuse('remedy-open');
  return open.reservedCents > 0 ? refuse('reserve-open', { cents: open.reservedCents }) : next;
}

/** A question that is open is answered, and closed by that: it stays a question. */
export const mayAnswer = ({ state, kind }: { state: State; kind: Kind }): Outcome<State> =>
  kind === 'question' && state !== 'closed' ? accept('closed') : refuse('question-only');

/** A question becomes a callback when somebody says that something was missed, mis-stated or damaged, or complains of conduct or fee. */
export const mayBecomeCallback = (callback: { state: State; kind: Kind }): Outcome<State> =>
  callback.kind === 'question'
    ? accept(callback.state === 'closed' ? 'looking_into' : callback.state)
    : refuse('callback-state', { state: 'a callback', needed: 'a question' });
