// Clients out of a spreadsheet, alone or on jobs: who is known already, and who is new, each once.
import { knownParties } from '@backsight/store/firm/records';
import type { PartyDraft } from './drafts.ts';
import { low, partyKey } from './known.ts';
import type { Line } from './line.ts';
import type { Context, NewParty } from './prepared.ts';

/** Answers the id of a client, adding them where they are new. */
export type Parties = { idOf: (draft: PartyDraft, line: Line, alone: boolean) => string; fresh: NewParty[] };

/** Looks up everybody who is named, at once. */
export async function partiesOf(context: Context, drafts: readonly PartyDraft[]): Promise<Parties> {
  const emails = [...new Set(drafts.flatMap(({ email }) => (email === null ? [] : [low(email)])))];
  const names = [...new Set(drafts.filter(({ email }) => email === null).map(({ name }) => low(name)))];
  const known = new Map<string, { id: string; name: string; line: number | null }>();
  const file = (key: string, id: string, name: string, line: number | null) => {
    if (!known.has(key)) known.set(key, { id, name, line });
  };
  for (const one of await knownParties(context.reader, { emails, names })) {
    file(partyKey(one), one.id, one.name, null);
    if (one.email !== null && one.phone !== null) file(partyKey({ ...one, email: null }), one.id, one.name, null);
  }
  const fresh: NewParty[] = [];
  return {
    fresh,
    idOf: (draft, line, alone) => {
      const found = known.get(partyKey(draft));
      if (found) {
        sayKnown(found, draft, line, alone);
        return found.id;
      }
      const { line: at, ...party } = draft;
      const id = context.newId();
      fresh.push({ ...party, id });
      file(partyKey(draft), id, draft.name, at);
      if (draft.email !== null && draft.phone !== null) file(partyKey({ ...draft, email: null }), id, draft.name, at);
      return id;
    },
  };
}

function sayKnown(found: { name: string; line: number | null }, draft: PartyDraft, line: Line, alone: boolean): void {
  const where = found.line === null ? 'on file' : `in line ${found.line}`;
  if (alone) line.known(`${found.name} is ${where} already.`);
  else if (low(found.name) !== low(draft.name))
    line.look('clientEmail', `This address belongs to ${found.name} ${where}, so the job is filed under that name.`);
}

/** Clients alone: those who are new. */
export async function judgeClients(context: Context, drafts: readonly { draft: PartyDraft; line: Line }[]): Promise<NewParty[]> {
  const parties = await partiesOf(
    context,
    drafts.map(({ draft }) => draft),
  );
  for (const { draft, line } of drafts) {
    if (draft.email === null && draft.phone === null)
      line.look('email', 'Without e-mail address and phone nobody can be reached, and somebody of the same name is taken for the same.');
    parties.idOf(draft, line, true);
  }
  return parties.fresh;
}
