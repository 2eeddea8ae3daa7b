// What a client reports by the private link, and what the client sees of it afterwards.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { ClientMatter } from './intakeWords.ts';
import type { Kind, State } from './words.ts';

const KIND_OF: Record<ClientMatter, Kind> = {
  missed: 'missed',
  damaged: 'damage_or_injury',
  hurt: 'damage_or_injury',
  conduct: 'conduct',
  fee: 'fee',
  question: 'question',
};

/** As which kind it is taken in. Who was hurt is for the owner alone. */
export const kindOfMatter = (matter: ClientMatter): { kind: Kind; ownerOnly: boolean } => ({
  kind: KIND_OF[matter],
  ownerOnly: matter === 'hurt',
});

/** In plain words, and no more: nothing of opinions or money. */
export type ClientState = 'received' | 'being looked into' | 'decided' | 'answered' | 'closed';

/** What a client reads of the state. A question is answered when it is closed; what the lead concludes is not decided yet. */
export function stateForClient(kind: Kind, state: State): ClientState {
  if (state === 'closed') return kind === 'question' ? 'answered' : 'closed';
  if (state === 'remedy_agreed') return 'decided';
  return state === 'looking_into' || state === 'concluded' ? 'being looked into' : 'received';
}

/** Photos that one callback may hold: those of a client by the link, and all of them. */
export const MOST_CLIENT_PHOTOS = 12;
export const MOST_PHOTOS = 40;

/** A client adds photos to an own report that is still open; the office adds what came by mail. */
export function mayAddPhoto(at: { state: State; count: number; byClient: boolean }): Outcome<null> {
  if (at.byClient && at.state === 'closed') return refuse('callback-photo-closed');
  const most = at.byClient ? MOST_CLIENT_PHOTOS : MOST_PHOTOS;
  return at.count >= most ? refuse('callback-photos-full', { most }) : accept(null);
}
