// The table service of OSRM (Project-OSRM/osrm-backend, docs/http.md): GET /table/v1/driving, longitude before latitude.
import { z } from 'zod';
import { BlockRefused, type RoadService } from '@backsight/usecases/schedule/fillTravel';
import { askJson, type At } from './askJson.ts';
import { secondsTable } from './secondsTable.ts';

const answer = z.object({ code: z.string(), data_version: z.string().optional() });
const table = z.object({ durations: z.array(z.array(z.number().nonnegative().nullable())) });
/** Too many places, or one of them near no road: smaller questions may be answered. */
const SMALLER = new Set(['TooBig', 'NoSegment', 'NoTable']);

type Point = { lat: number; lon: number };
const pointsOf = (list: readonly Point[]): string => list.map(({ lat, lon }) => `${lon.toFixed(4)},${lat.toFixed(4)}`).join(';');
const indexes = (count: number, from: number): string => Array.from({ length: count }, (_, at) => at + from).join(';');

function codeOf(body: unknown): z.output<typeof answer> {
  const parsed = answer.safeParse(body);
  if (!parsed.success) throw new Error('the answer is not that of a table service');
  return parsed.data;
}

export const osrm = (at: At): RoadService => ({
  engine: async (near) => {
    const { code, data_version: version = '' } = codeOf((await askJson(at, `/nearest/v1/driving/${pointsOf([near])}?number=1`)).body);
    if (code !== 'Ok') throw new Error(`the table service answers ${code}`);
    return `osrm ${version}`.trim();
  },
  seconds: async (from, to) => {
    const asked = `sources=${indexes(from.length, 0)}&destinations=${indexes(to.length, from.length)}&annotations=duration`;
    const { status, body } = await askJson(at, `/table/v1/driving/${pointsOf([...from, ...to])}?${asked}`);
    const { code } = codeOf(body);
    if (SMALLER.has(code)) throw new BlockRefused(code);
    if (status !== 200 || code !== 'Ok') throw new Error(`the table service answers ${code}`);
    return secondsTable(table.safeParse(body).data?.durations, from.length, to.length);
  },
});
