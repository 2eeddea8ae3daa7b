// People of the firm out of a spreadsheet: known by their e-mail address, with roles that whoever brings them in may give.
import { mayGive } from '@backsight/domain/people/rules';
import { knownPeople } from '@backsight/store/firm/records';
import type { PersonDraft } from './drafts.ts';
import { low, placesOf } from './known.ts';
import type { Line } from './line.ts';
import type { Context, NewPerson } from './prepared.ts';

/** Those who are new. Whoever has no home address starts from the office until somebody says it. */
export async function judgePeople(context: Context, drafts: readonly { draft: PersonDraft; line: Line }[]): Promise<NewPerson[]> {
  const onFile = new Map((await knownPeople(context.reader)).map((one) => [low(one.email), one.name]));
  const inFile = new Map<string, number>();
  const placeOf = placesOf(context.reader);
  const fresh: NewPerson[] = [];
  for (const { draft, line } of drafts) {
    const { line: _, town, zip, home, ...person } = draft;
    const email = low(draft.email);
    const before = inFile.get(email);
    if (onFile.has(email)) line.known(`${onFile.get(email)} is on file with this e-mail address.`);
    else if (before !== undefined) line.known(`The e-mail address stands in line ${before} already.`);
    else if (!mayGive(context.roles, draft.roles).ok)
      line.stop('roles', 'Only an owner makes owners, lead inspectors and office managers.');
    else {
      inFile.set(email, draft.line);
      const at = await homeOf(context, line, { town, zip, placeOf });
      const homeAddress = [home, town, zip].filter(Boolean).join(', ');
      if (at)
        fresh.push({
          ...person,
          id: context.newId(),
          homeAddress: homeAddress === '' ? context.frame.address : homeAddress,
          home: at,
          startedOn: draft.startedOn ?? (draft.endedOn !== null && draft.endedOn < context.today ? draft.endedOn : context.today),
        });
    }
  }
  return fresh;
}

type Where = { town: string; zip: string | null; placeOf: ReturnType<typeof placesOf> };

async function homeOf({ frame }: Context, line: Line, { town, zip, placeOf }: Where): Promise<{ lat: number; lon: number } | null> {
  const office = { lat: frame.lat, lon: frame.lon };
  if (town === '' && zip === null) {
    line.look('home', 'Without town or ZIP code of the home, drives begin at the office until somebody says it.');
    return office;
  }
  const place = await placeOf({ town, zip });
  if (!('says' in place)) return place;
  line.stop(zip === null ? 'town' : 'zip', place.says);
  return null;
}
