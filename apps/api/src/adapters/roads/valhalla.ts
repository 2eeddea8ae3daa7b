// The matrix service of Valhalla (valhalla/valhalla, docs/api/matrix): POST /sources_to_targets, cells in row order.
import { z } from 'zod';
import { BlockRefused, type RoadService } from '@backsight/usecases/schedule/fillTravel';
import { askJson, type At } from './askJson.ts';
import { secondsTable } from './secondsTable.ts';

const cell = z.object({ time: z.number().nonnegative().nullable(), from_index: z.int(), to_index: z.int() });
const matrix = z.object({ sources_to_targets: z.array(z.array(cell)) });
const fault = z.object({ error_code: z.int(), error: z.string().optional() });
const status = z.object({ version: z.string().optional(), tileset_last_modified: z.number().optional() });
/** Too many places (150), too far apart (154), no road near a place (171), no way between them (442): smaller questions may be answered. */
const SMALLER = new Set([150, 154, 171, 442]);

type Point = { lat: number; lon: number };
const pointsOf = (list: readonly Point[]) => list.map(({ lat, lon }) => ({ lat: Number(lat.toFixed(4)), lon: Number(lon.toFixed(4)) }));

export const valhalla = (at: At): RoadService => ({
  engine: async () => {
    const parsed = status.safeParse((await askJson(at, '/status')).body);
    if (!parsed.success) throw new Error('the answer is not that of a matrix service');
    const { version = '', tileset_last_modified: tiles = '' } = parsed.data;
    return `valhalla ${version} ${tiles}`.trim();
  },
  seconds: async (from, to) => {
    const asked = { sources: pointsOf(from), targets: pointsOf(to), costing: 'auto', units: 'kilometers' };
    const { status: http, body } = await askJson(at, '/sources_to_targets', asked);
    const refused = fault.safeParse(body);
    if (refused.success && SMALLER.has(refused.data.error_code)) throw new BlockRefused(String(refused.data.error_code));
    if (http !== 200) throw new Error(`the matrix service answers ${refused.success ? refused.data.error_code : http}`);
    return secondsTable(rowsOf(body), from.length, to.length);
  },
});

/** Times by their own indexes: the order inside a row is not relied on. */
function rowsOf(body: unknown): (number | null)[][] | undefined {
  const parsed = matrix.safeParse(body);
  if (!parsed.success) return undefined;
  return parsed.data.sources_to_targets.map((row, at) => {
    const times: (number | null)[] = Array.from({ length: row.length });
    for (const one of row) if (one.from_index === at && one.to_index < row.length) times[one.to_index] = one.time;
    if (times.includes(undefined as never)) throw new Error('the table of the answer has not the size that was asked');
    return times;
  });
}
