// Every move of a callback from every state for every kind, held against the table as it was designed; and every letter likewise.
import { describe, expect, it } from 'vitest';
import { LETTERS, mayWriteLetter, type LetterName } from '@backsight/domain/callbacks/letters';
import { mayBecomeCallback, mayClose, moveTo, statesFor, type Move } from '@backsight/domain/callbacks/state';
import { isLegal, KINDS, STATES, type Kind, type State } from '@backsight/domain/callbacks/words';

const states = Object.keys(STATES) as State[];
const kinds = Object.keys(KINDS) as Kind[];
const MOVES: readonly Move[] = ['acknowledge', 'look_into', 'conclude', 'propose', 'agree', 'close', 'reopen', 'money'];
const said = (outcome: { ok: true; value: unknown } | { ok: false; code: string }) =>
  outcome.ok ? String(outcome.value ?? 'yes') : outcome.code;

const LATER = { look_into: 'same', propose: 'same', money: 'same' } as const;
type Way = Record<State, Partial<Record<Move, State | 'same'>>>;

/** What is judged: it is concluded before it is closed, and a remedy is agreed in between. */
const JUDGED: Way = {
  received: { acknowledge: 'acknowledged', look_into: 'looking_into', money: 'same' },
  acknowledged: { ...LATER, look_into: 'looking_into', conclude: 'concluded', agree: 'same' },
  looking_into: { ...LATER, conclude: 'concluded', agree: 'same' },
  concluded: { ...LATER, conclude: 'same', agree: 'remedy_agreed', close: 'closed' },
  remedy_agreed: { ...LATER, conclude: 'same', agree: 'same', close: 'closed' },
  closed: { reopen: 'looking_into' },
};
const closable = (way: Way): Way =>
  Object.fromEntries(states.map((state) => [state, state === 'closed' ? way[state] : { ...way[state], close: 'closed' }])) as Way;
const without = (way: Way, moves: readonly Move[]): Way =>
  Object.fromEntries(
    states.map((state) => [state, Object.fromEntries(Object.entries(way[state]).filter(([move]) => !moves.includes(move as Move)))]),
  ) as Way;

/** A request for records is answered; it may be concluded, and need not be. */
const REQUEST = closable(JUDGED);
/** A question is answered and closed: nothing is concluded, proposed or paid in it. */
const QUESTION = closable(without(JUDGED, ['conclude', 'propose', 'agree', 'money']));
/** A near-miss was caught in time: concluded at once, without remedy and money. */
const NEAR_MISS: Way = (() => {
  const way = without(JUDGED, ['propose', 'agree', 'money']);
  return { ...way, received: { ...way.received, conclude: 'concluded' } };
})();
const WAYS: Record<Kind, Way> = {
  missed: JUDGED,
  damage_or_injury: JUDGED,
  conduct: JUDGED,
  fee: JUDGED,
  board_complaint: JUDGED,
  demand_or_suit: JUDGED,
  records_request: REQUEST,
  question: QUESTION,
  near_miss: NEAR_MISS,
};

/** What a move that the table does not name is refused with. */
function refusal(kind: Kind, state: State, move: Move): string {
  if (kind === 'question' && ['conclude', 'propose', 'agree', 'money'].includes(move)) return 'question-is-no-callback';
  if (kind === 'near_miss' && ['propose', 'agree', 'money'].includes(move)) return 'near-miss-costs-nothing';
  return move === 'close' && state !== 'closed' ? 'conclusion-missing' : 'callback-state';
}

describe('the moves of a callback', () => {
  it.each(kinds)('of the kind %s: every state and every move', (kind) => {
    const designed = states.flatMap((state) =>
      MOVES.map((move) => {
        const next = WAYS[kind][state][move];
        return `${state}, ${move}: ${next === undefined ? refusal(kind, state, move) : next === 'same' ? state : next}`;
      }),
    );
    expect(states.flatMap((state) => MOVES.map((move) => `${state}, ${move}: ${said(moveTo({ state, kind }, move))}`))).toEqual(designed);
    for (const move of MOVES) {
      const from = states.filter((state) => WAYS[kind][state][move] !== undefined);
      if (from.length > 0) expect([...statesFor(move, kind)].sort(), move).toEqual([...from].sort());
    }
  });
  it('are counted: 432 of them, and the table names 211 as possible', () => {
    const possible = kinds.flatMap((kind) => states.flatMap((state) => MOVES.filter((move) => moveTo({ state, kind }, move).ok)));
    expect([kinds.length * states.length * MOVES.length, possible.length]).toEqual([432, 211]);
  });
  it.each(kinds)('of the kind %s end with nothing set aside and no remedy open', (kind) => {
    for (const state of states) {
      const at = (reservedCents: number, openRemedies: number) => said(mayClose({ state, kind }, { reservedCents, openRemedies }));
      const closes = WAYS[kind][state].close !== undefined;
      expect([at(0, 0), at(1, 0), at(0, 1), at(1, 1)]).toEqual(
        closes ? ['closed', 'reserve-open', 'remedy-open', 'remedy-open'] : Array(4).fill(refusal(kind, state, 'close')),
      );
    }
  });
  it.each(kinds)('of the kind %s: only a question becomes a callback, and a closed one is looked into then', (kind) => {
    const became = states.map((state) => said(mayBecomeCallback({ state, kind })));
    expect(became).toEqual(kind === 'question' ? [...states.slice(0, -1), 'looking_into'] : states.map(() => 'callback-state'));
  });
});

const DECIDED: State[] = ['concluded', 'remedy_agreed', 'closed'];
const OPEN = states.filter((state) => state !== 'closed');
/** From which states each letter may be written. */
const LETTER_STATES: Record<LetterName, State[]> = {
  acknowledgement: states,
  access: OPEN,
  visit: OPEN,
  decision: DECIDED,
  closing: ['closed'],
  appeal: states,
};

describe('the letters of a callback', () => {
  it.each(kinds)('of the kind %s: every state and every letter', (kind) => {
    for (const state of states)
      for (const letter of Object.keys(LETTERS) as LetterName[])
        for (const ownerOnly of [true, false])
          for (const there of [true, false]) {
            const designed =
              ownerOnly || kind === 'near_miss' || isLegal(kind)
                ? 'no-letter-in-this'
                : letter === 'access' && kind === 'question'
                  ? 'question-is-no-callback'
                  : letter === 'visit' && !there
                    ? 'no-visit-booked'
                    : letter === 'appeal' && !there
                      ? 'no-appeal-decided'
                      : LETTER_STATES[letter].includes(state)
                        ? 'yes'
                        : 'callback-state';
            const may = mayWriteLetter({ state, kind, ownerOnly, visitBooked: there, appealDecided: there }, letter);
            expect(said(may), `${letter} in ${state}, owner alone ${ownerOnly}, there ${there}`).toBe(designed);
          }
  });
});
