// Makes sure of one start: locks the days of its people and kit, ends holds whose time is over, and checks every rule once more.
import type { Provider } from '@backsight/domain/jobs/decide';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { daysFrom, wallTime } from '@backsight/domain/schedule/wallClock';
import { checkStart, type Violation } from '@backsight/scheduling/checkStart';
import { findStarts } from '@backsight/scheduling/findStarts';
import { providerAt } from '@backsight/scheduling/outside';
import { addDays } from '@backsight/scheduling/time';
import type { Choice, StartQuery, World } from '@backsight/scheduling/world';
import type { OfficeRow } from '@backsight/store/jobs/catalog';
import { addJobEvent, lockJob } from '@backsight/store/jobs/jobs';
import { lockProviders } from '@backsight/store/schedule/providers';
import { endLapsedHolds, lockDays, type VisitRow } from '@backsight/store/schedule/visits';
import type { Work } from '../../run.ts';
import { keepApart } from './apart.ts';
import { choicesAbout } from './choices.ts';
import { queryOf, type Demand } from './demand.ts';
import { loadWorld, without, type LoadedWorld } from './loadWorld.ts';

/** A start as it is asked for: an instant and who goes. */
export type Start = { startsAt: string; first: string; second: string | null };
/** A start that nobody else can take until the transaction ends. */
export type Reserved = {
  startsAt: Date;
  endsAt: Date;
  first: string;
  second: string | null;
  /** Why this start, in the words and numbers of the search; asking takes as long as a search does. */
  because: () => Promise<unknown>;
  outside: ReservedPart[];
};
/** The outside provider of a service, and his part of the visit. */
export type ReservedPart = { service: string; provider: Provider };

const DAYS_OF_CHOICE = 7;

type Ask = {
  office: OfficeRow;
  demand: Demand;
  start: Start;
  /** The visit that leaves its place for this one, so that it stands in nobody's way. */
  moving?: VisitRow;
  /** The start was chosen before and stands: nobody asks why, unless it is not possible any more. */
  chosen?: true;
};

/** Answers the start as it is ours until the transaction ends, or refuses with what else there is. */
export async function reserveStart(work: Work, ask: Ask): Promise<Outcome<Reserved>> {
  const { office, demand, start, moving, chosen } = ask;
  const startsAt = new Date(start.startsAt);
  if (startsAt <= work.now) return refuse('start-is-past', {}, 'start.startsAt');
  const wall = wallTime(startsAt, office.zone);
  const choice: Choice = { day: wall.day, start: wall.minute, first: start.first, second: start.second };
  await lockStart(work, ask, choice);
  await lockProviders(
    work.tx,
    (demand.outside ?? []).flatMap(({ providers }) => providers.map(({ id }) => id)),
  );
  await lapseHolds(work, {
    from: startsAt,
    until: new Date(startsAt.getTime() + 24 * 3_600_000),
    ...(moving ? { except: moving.id } : {}),
  });
  const ranked = () => worldFor(work, ask, choice.day, true);
  const loaded = await (chosen ? worldFor(work, ask, choice.day, false) : ranked());
  const world = keepApart(loaded, demand);
  const toRank = async () => (chosen ? keepApart(await ranked(), demand) : world);
  const query = queryOf(office, demand, {
    days: daysFrom(choice.day, DAYS_OF_CHOICE),
    now: work.now,
    limit: 1,
    taken: loaded.outside,
  });
  const broken = checkStart(world, query, choice);
  if (broken.length > 0) return refused(broken, await toRank(), query, choice, office.zone);
  return accept({
    startsAt,
    endsAt: new Date(startsAt.getTime() + demand.minutes * 60_000),
    first: start.first,
    second: start.second,
    because: async () => becauseOf(await toRank(), query, choice),
    outside: outsideAt(demand, query, choice),
  });
}

/** The provider who takes each outside service at the start. */
const outsideAt = ({ outside = [] }: Demand, query: StartQuery, { day, start }: Choice): ReservedPart[] =>
  outside.map(({ service, providers }, at) => {
    const taken = providerAt(query.outside![at]!, day, start)!;
    return { service, provider: providers.find(({ id }) => id === taken.id)! };
  });

/** Stands for all days of a person: a visit may pass its report on to another day, so that placings of one person wait for each other. */
const EVERY_DAY = '0001-01-01';

async function lockStart(work: Work, { office, demand, start, moving }: Ask, choice: Choice): Promise<void> {
  const crew = [start.first, start.second].filter((id) => id !== null);
  const left = moving
    ? { crew: [moving.first, moving.second].filter((id) => id !== null), day: wallTime(moving.startsAt, office.zone).day, kit: moving.kit }
    : null;
  await lockDays(work.tx, {
    people: [
      ...crew.flatMap((id) => [EVERY_DAY, choice.day].map((day) => ({ id, day }))),
      ...(left?.crew.map((id) => ({ id, day: left.day })) ?? []),
    ],
    kit: [...demand.kit.map((kind) => ({ kind, day: choice.day })), ...(left?.kit.map((kind) => ({ kind, day: left.day })) ?? [])],
  });
}

/** Ends holds whose time is over, and notes it on their jobs. Answers how many. */
export async function lapseHolds(work: Work, span?: { from: Date; until: Date; except?: string }): Promise<number> {
  const lapsed = await endLapsedHolds(work.tx, work.now, span);
  for (const { id, jobId } of lapsed) {
    const job = await lockJob(work.tx, jobId);
    if (job?.state !== 'held') continue;
    await addJobEvent(work.tx, {
      id: work.newId(),
      jobId,
      at: work.now,
      actorId: null,
      kind: 'lapsed',
      state: 'lapsed',
      details: { visitId: id },
    });
    await work.did('job', jobId, { lapsed: true, visitId: id });
  }
  return lapsed.length;
}

/** `ranked`: with the days among which another start could be chosen. */
async function worldFor(work: Work, { office, demand, moving }: Ask, day: string, ranked: boolean): Promise<LoadedWorld> {
  const world = await loadWorld(work.tx, {
    from: day,
    to: ranked ? addDays(day, DAYS_OF_CHOICE - 1) : day,
    now: work.now,
    officeId: office.id,
    zone: office.zone,
    place: demand.place,
    ranked,
  });
  return moving ? without(world, moving.id) : world;
}

const TAKEN = ['overlap', 'travel', 'kit', 'writing', 'provider'];

function refused(broken: readonly Violation[], world: World, query: StartQuery, choice: Choice, zone: string): Outcome<never> {
  const about = {
    ...choicesAbout(world, query, choice, zone),
    rules: [...new Set(broken.map(({ code }) => code))],
    sentences: broken.map(({ sentence }) => sentence).join(' '),
  };
  return refuse(
    broken.some(({ code }) => code === 'overlap') && broken.every(({ code }) => TAKEN.includes(code))
      ? 'person-taken'
      : 'start-not-possible',
    about,
    'start',
  );
}

/** Why this start: the sentence and the parts of its score, or that a person chose it against the ranking. */
function becauseOf(world: World, query: StartQuery, choice: Choice): unknown {
  const { options } = findStarts(world, { ...query, days: [choice.day], limit: 200 });
  const rank = options.findIndex((one) => one.start === choice.start && one.first === choice.first && one.second === choice.second);
  const found = options[rank];
  if (!found) return { sentence: 'Chosen by hand; every rule was checked.', rank: null };
  return {
    sentence: found.sentence,
    rank: rank + 1,
    of: options.length,
    score: found.score,
    parts: found.parts,
    tightest: found.tightest,
    marks: found.marks,
  };
}
