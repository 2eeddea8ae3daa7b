// Times closed for weather that are not over, the towns to choose from, and the booked visits that each hits.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { agreementWords, comesWords } from '@backsight/domain/agreements/notices';
import { writeLetter } from '@backsight/domain/mail/letter';
import { daysFrom, wallTime } from '@backsight/domain/schedule/wallClock';
import { daysBetween } from '@backsight/scheduling/time';
import type { Reader } from '@backsight/store/database';
import { findWording } from '@backsight/store/mail/wording';
import { findCatalog, listTowns, type Catalog } from '@backsight/store/jobs/catalog';
import { closuresBetween, type ClosureRow } from '@backsight/store/schedule/closures';
import { localDay } from '../firm/steps/localDay.ts';
import { weatherSaid } from './steps/callWords.ts';
import { isClosed, labelOf, loadPlanFacts, type PlanFacts } from './steps/planInput.ts';

const YEAR = 366 * 86_400_000;

export async function readClosures(reader: Reader, now: Date) {
  const catalog = await findCatalog(reader, now);
  if (!catalog) return refuse('not-set-up', { what: 'office' });
  const closures = await closuresBetween(reader, now, new Date(now.getTime() + YEAR));
  const towns = (await listTowns(reader)).map(({ name }) => name);
  const items = [];
  for (const closure of closures) items.push(await closureJson(reader, now, catalog, closure));
  return accept({ items, towns, mail: await sampleMail(reader, catalog) });
}

async function closureJson(reader: Reader, now: Date, catalog: Catalog, closure: ClosureRow) {
  const facts = await factsAround(reader, now, catalog, closure);
  const { id, startsAt, endsAt, outdoorOnly, towns, reason, recordedBy } = closure;
  const alone = { ...facts, world: { ...facts.world, closures: facts.world.closures?.filter((one) => one.id === id) ?? [] } };
  return {
    id,
    startsAt: startsAt.toISOString(),
    endsAt: endsAt.toISOString(),
    outdoorOnly,
    towns,
    reason,
    recordedBy,
    visits: alone.visits
      .filter((visit) => isClosed(alone, visit))
      .map((visit) => ({
        id: visit.id,
        jobId: visit.jobId,
        label: labelOf(visit),
        startsAt: visit.startsAt,
        objectionOn: visit.objectionOn,
      })),
  };
}

async function factsAround(reader: Reader, now: Date, { office }: Catalog, closure: ClosureRow): Promise<PlanFacts> {
  const { today } = await localDay(reader, now);
  const first = wallTime(closure.startsAt, office.zone).day;
  const from = first < today ? today : first;
  const days = daysFrom(from, Math.max(0, daysBetween(from, wallTime(closure.endsAt, office.zone).day)) + 1);
  return loadPlanFacts(reader, { office, days, now });
}

/** What a client reads when the visit is moved, so that it is known before anything is accepted. */
async function sampleMail(reader: Reader, { firm }: Catalog): Promise<string> {
  const written = writeLetter('move', await findWording(reader, 'move'), {
    name: '(client)',
    job: '(number)',
    what: 'inspection',
    address: '(address)',
    before: '(the old time)',
    appointment: '(the new time)',
    coming: comesWords(['(first)', '(second)']),
    agreement: agreementWords('stands'),
    fee: weatherSaid('(reason)'),
    firm: firm.name,
    firm_phone: firm.phone,
  });
  return written.ok ? written.value.body : '';
}
