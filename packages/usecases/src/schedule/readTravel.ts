// The page of driving times: where they come from, what was said by hand, what the recorded drives say, what the road service answered.
import { ENOUGH_BETWEEN_TOWNS, ENOUGH_IN_BAND, type Fit } from '@backsight/scheduling/calibrate';
import { BANDS } from '@backsight/scheduling/travel';
import type { Reader } from '@backsight/store/database';
import { listTowns } from '@backsight/store/jobs/catalog';
import { countCells, findFit, findTravelSetup, listFits, listTravelRules, type FitRow } from '@backsight/store/schedule/travel';

const SHOWN = 12;

const fitJson = ({ id, fromDay, untilDay, body, recordedAt }: FitRow) => ({
  id,
  fromDay,
  untilDay,
  recordedAt: recordedAt.toISOString(),
  ...(({ bands, factors, used, leftOut, missBefore, missAfter }: Fit) => ({ bands, factors, used, leftOut, missBefore, missAfter }))(
    body as Fit,
  ),
});

const ruleJson = (rule: Awaited<ReturnType<typeof listTravelRules>>[number]) => ({
  id: rule.id,
  kind: rule.kind,
  a: { name: rule.aName, lat: rule.aLat, lon: rule.aLon, radiusKm: rule.aRadiusKm },
  b: rule.kind === 'between' ? { name: rule.bName!, lat: rule.bLat!, lon: rule.bLon!, radiusKm: rule.bRadiusKm! } : null,
  minutes: rule.minutes,
  percent: rule.percent,
  reason: rule.reason,
  by: rule.by,
  recordedAt: rule.recordedAt.toISOString(),
});

/** Everything on the page. The address of the road service is a setting of the installation and is not shown. */
export async function readTravel(reader: Reader) {
  const setup = await findTravelSetup(reader);
  const fits = await listFits(reader, SHOWN);
  const inUse = setup.fitId === null ? null : await findFit(reader, setup.fitId);
  return {
    version: setup.version,
    follow: setup.follow,
    inUse: inUse && fitJson(inUse),
    fits: fits.map(fitJson),
    rules: (await listTravelRules(reader)).map(ruleJson),
    towns: (await listTowns(reader)).map(({ name, lat, lon }) => ({ name, lat, lon })),
    standard: BANDS.map(({ upToKm, detour, kmh }) => ({ upToKm: upToKm === Infinity ? null : upToKm, detour, kmh })),
    enough: { inBand: ENOUGH_IN_BAND, betweenTowns: ENOUGH_BETWEEN_TOWNS },
    service:
      setup.engine === null
        ? null
        : {
            name: setup.engine.split(' ')[0]!,
            ...(await countCells(reader, setup.engine)),
            filledAt: setup.filledAt?.toISOString() ?? null,
            lastError: setup.lastError,
          },
  };
}
