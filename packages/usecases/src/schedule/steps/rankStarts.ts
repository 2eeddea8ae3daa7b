// Asks the search for the ranked starts of one demand, and says them with instants and names.
import { daysFrom, instantOf } from '@backsight/domain/schedule/wallClock';
import { findStarts as search } from '@backsight/scheduling/findStarts';
import { heldBack } from '@backsight/scheduling/heldBack';
import { indexWorld } from '@backsight/scheduling/worldIndex';
import type { StartOption } from '@backsight/scheduling/world';
import type { Reader } from '@backsight/store/database';
import type { OfficeRow } from '@backsight/store/jobs/catalog';
import { keepApart } from './apart.ts';
import { queryOf, type Ask, type Demand } from './demand.ts';
import { loadWorld, without } from './loadWorld.ts';
import { zoneBeyond } from './zone.ts';

export type RankAsk = {
  office: OfficeRow;
  demand: Demand;
  fromDay: string;
  days: number;
  withoutVisit: string | null;
  /** Two people about whom it is asked why they are not offered. */
  pair?: readonly string[] | undefined;
} & Omit<Ask, 'days' | 'now' | 'only' | 'taken'>;

export async function rankStarts(reader: Reader, now: Date, ask: RankAsk) {
  const { office, demand } = ask;
  const days = daysFrom(ask.fromDay, ask.days);
  const loaded = await loadWorld(reader, {
    from: days[0]!,
    to: days.at(-1)!,
    now,
    officeId: office.id,
    zone: office.zone,
    place: demand.place,
  });
  const world = keepApart(without(loaded, ask.withoutVisit), demand);
  const query = queryOf(office, demand, { ...ask, days, now, taken: world.outside });
  const index = indexWorld(world, days);
  const found = search(world, query, index);
  const names = new Map(world.people.map(({ id, name }) => [id, name]));
  return {
    minutes: demand.minutes,
    walkThroughMinutes: demand.walkThroughMinutes ?? 0,
    zone: office.zone,
    zoneBeyond: zoneBeyond(demand.place, office.zone, ask.fromDay),
    roadService: loaded.travel?.service ?? false,
    options: found.options.flatMap((option) => said(option, names, office.zone)),
    blockedDays: found.blockedDays,
    wanted: ask.pair
      ? wantedPair(
          found,
          search(world, { ...query, only: ask.pair, limit: ask.pair.length * WANTED, perDay: 1 }, index),
          names,
          office.zone,
        )
      : null,
    heldBack: heldBack(world.people, days),
  };
}

const WANTED = 3;
type Found = ReturnType<typeof search>;

/** When these two could go, how much more their best start costs than the best of all, and why not on the other days. */
function wantedPair(best: Found, theirs: Found, names: ReadonlyMap<string, string>, zone: string) {
  const [first] = theirs.options;
  return {
    options: theirs.options.flatMap((option) => said(option, names, zone)),
    costsMore: first && best.options[0] ? first.score - best.options[0].score : null,
    blockedDays: theirs.blockedDays,
  };
}

/** An option with its instants and names; a time that the clock skips is none. */
function said(option: StartOption, names: ReadonlyMap<string, string>, zone: string) {
  const startsAt = instantOf(option.day, option.start, zone);
  if (!startsAt.ok) return [];
  const endsAt = new Date(startsAt.value.getTime() + (option.end - option.start) * 60_000);
  const { day, first, second, score, parts, sentence, marks, tightest, travelSource } = option;
  return [
    {
      day,
      startsAt: startsAt.value.toISOString(),
      endsAt: endsAt.toISOString(),
      first,
      second,
      firstName: names.get(first) ?? '',
      secondName: second === null ? null : (names.get(second) ?? ''),
      score,
      parts,
      sentence,
      marks,
      tightest,
      travelSource,
    },
  ];
}
