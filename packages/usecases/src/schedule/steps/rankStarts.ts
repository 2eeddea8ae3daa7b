// Asks the search for the ranked starts of one demand, and says them with instants and names.
import { daysFrom, instantOf } from '@backsight/domain/schedule/wallClock';
import { findStarts as search } from '@backsight/scheduling/findStarts';
import { heldBack } from '@backsight/scheduling/heldBack';
import type { StartOption } from '@backsight/scheduling/world';
import type { Reader } from '@backsight/store/database';
import type { OfficeRow } from '@backsight/store/jobs/catalog';
import { keepApart } from './apart.ts';
import { queryOf, type Demand, type Wishes } from './demand.ts';
import { loadWorld } from './loadWorld.ts';

export type RankAsk = {
  office: OfficeRow;
  demand: Demand;
  fromDay: string;
  days: number;
  limit: number;
  wishes?: Wishes | undefined;
  withoutVisit: string | null;
};

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
  const world = keepApart({ ...loaded, busy: loaded.busy.filter(({ id }) => id !== ask.withoutVisit) }, demand);
  const found = search(world, queryOf(office, demand, { days, now, limit: ask.limit, wishes: ask.wishes }));
  const names = new Map(world.people.map(({ id, name }) => [id, name]));
  return {
    minutes: demand.minutes,
    zone: office.zone,
    roadService: loaded.travel?.service ?? false,
    options: found.options.flatMap((option) => said(option, names, office.zone)),
    blockedDays: found.blockedDays,
    heldBack: heldBack(world.people, days),
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
