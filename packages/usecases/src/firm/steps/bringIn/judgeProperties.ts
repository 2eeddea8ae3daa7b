// Properties out of a spreadsheet, alone or with jobs: which are known by their address already, and where the new ones are.
import { knownProperties } from '@backsight/store/firm/records';
import { shortState } from '@backsight/domain/shared/stateOfZip';
import type { PropertyDraft } from './drafts.ts';
import { placesOf, type Place } from './known.ts';
import type { Line } from './line.ts';
import type { Context, NewProperty } from './prepared.ts';

export type Houses = {
  /** The id of a property, which is added where it is new; null where its place is not known, which stops the row. */
  idOf: (draft: PropertyDraft, line: Line, alone: boolean) => Promise<string | null>;
  /** Ids of those on file. */
  onFile: string[];
  fresh: NewProperty[];
};

/** Looks up every address at once. */
export async function housesOf(context: Context, drafts: readonly PropertyDraft[]): Promise<Houses> {
  const found = await knownProperties(context.reader, [...new Set(drafts.map(({ key }) => key))]);
  const known = new Map(found.map(({ id, key }) => [key, { id, line: null as number | null }]));
  const placeOf = placesOf(context.reader);
  const fresh: NewProperty[] = [];
  return {
    fresh,
    onFile: found.map(({ id }) => id),
    idOf: async (draft, line, alone) => {
      const before = known.get(draft.key);
      if (before) {
        if (alone)
          line.known(before.line === null ? 'This address is on file already.' : `This address stands in line ${before.line} already.`);
        return before.id;
      }
      const place = await placeOf(draft);
      if ('says' in place) {
        line.stop(draft.zip === null ? 'town' : 'zip', place.says);
        return null;
      }
      const id = context.newId();
      const { address, town, key, facts } = draft;
      fresh.push({ id, address, town, key, facts, place: inState(draft, place, line) });
      known.set(key, { id, line: draft.line });
      return id;
    },
  };
}

/** The state that is written counts; one that is not that of the ZIP code is to be looked at. */
function inState({ state }: PropertyDraft, place: Place, line: Line): Place {
  if (state === null || state === place.state) return place;
  if (place.state !== '')
    line.look('state', `By its ZIP code this lies in ${shortState(place.state)}. ${shortState(state)} is kept, as it is written.`);
  return { ...place, state };
}

/** Properties alone: those that are new. */
export async function judgeHouses(context: Context, drafts: readonly { draft: PropertyDraft; line: Line }[]): Promise<NewProperty[]> {
  const houses = await housesOf(
    context,
    drafts.map(({ draft }) => draft),
  );
  for (const [at, { draft, line }] of drafts.entries()) {
    await houses.idOf(draft, line, true);
    if (at % 1000 === 999) await context.tell('comparing', at + 1, drafts.length);
  }
  return houses.fresh;
}
