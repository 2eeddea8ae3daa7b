// Asks the road service for the driving times that will be needed, ahead of the search, which never waits for it.
import { blocksOf, halves, neededPairs, type Block } from '@backsight/scheduling/travelBlocks';
import { placeOfKey } from '@backsight/scheduling/travelModel';
import type { Place } from '@backsight/scheduling/travel';
import type { Database } from '@backsight/store/database';
import { findTravelSetup, missingCells, neededPlaces, noteEngine, saveCells, type CellRow } from '@backsight/store/schedule/travel';
import { localDay } from '../firm/steps/localDay.ts';

/** What a road service is: an adapter of the HTTP floor. */
export type RoadService = {
  /** Name and version of its roads: answers of another version are asked anew. */
  engine: (near: Place) => Promise<string>;
  /** Seconds of driving by row and column; null where it knows no way. @throws BlockRefused, or Error when it does not answer rightly */
  seconds: (from: readonly Place[], to: readonly Place[]) => Promise<(number | null)[][]>;
};

/** The service does not answer a question of this size or with one of these places; smaller ones may do. */
export class BlockRefused extends Error {}

const SIDE = 25;
const DAYS_AHEAD = 28;
const KEPT_DAYS = 90;
/** Blocks in one run: the next run goes on. */
const MOST_BLOCKS = 200;
const DAY_MS = 86_400_000;

export type FillParts = { database: Database; clock: () => Date };

/** Fills in what is missing, `places` besides what is booked. Answers how many pairs were answered. Faults are noted, not thrown. */
export async function fillTravel(parts: FillParts, service: RoadService | null, places: readonly Place[] = []): Promise<number> {
  const { read, transaction } = parts.database;
  const setup = await findTravelSetup(read);
  const note = (engine: string | null, lastError: string | null) =>
    transaction(async (tx) => void (await noteEngine(tx, { engine, filledAt: parts.clock(), lastError })));
  if (!service) {
    if (setup.engine !== null) await note(null, null);
    return 0;
  }
  let engine = setup.engine;
  let filled = 0;
  try {
    const needed = await needs(parts, places);
    if (needed.near === null) return 0;
    engine = await service.engine(needed.near);
    const missing = await missingCells(read, engine, needed.pairs, new Date(parts.clock().getTime() - KEPT_DAYS * DAY_MS));
    for (const block of blocksOf(missing, SIDE).slice(0, MOST_BLOCKS)) {
      const cells = await answer(service, block);
      const of = engine;
      await transaction((tx) => saveCells(tx, of, cells, parts.clock()));
      filled += cells.length;
    }
    if (filled > 0 || engine !== setup.engine || setup.lastError !== null) await note(engine, null);
  } catch (error) {
    await note(engine, error instanceof Error ? error.message.slice(0, 200) : 'unknown fault');
  }
  return filled;
}

async function needs({ database, clock }: FillParts, places: readonly Place[]): Promise<{ near: Place | null; pairs: [number, number][] }> {
  const { zone } = await localDay(database.read, clock());
  const from = new Date(clock().getTime() - DAY_MS);
  const until = new Date(from.getTime() + DAYS_AHEAD * DAY_MS);
  const { bases, visits } = await neededPlaces(database.read, { from, until, zone });
  const days = [...new Set(visits.map(({ day }) => day))];
  const asked = places.flatMap((place) => (days.length === 0 ? [{ ...place, day: '' }] : days.map((day) => ({ ...place, day }))));
  return { near: bases[0] ?? visits[0] ?? places[0] ?? null, pairs: neededPairs(bases, [...visits, ...asked]) };
}

/** The cells of a block; one that the service refuses is asked in halves, and a single refused pair has no way. */
async function answer(service: RoadService, block: Block): Promise<CellRow[]> {
  try {
    const rows = await service.seconds(block.from.map(placeOfKey), block.to.map(placeOfKey));
    return block.from.flatMap((from, i) => block.to.flatMap((to, j) => (from === to ? [] : [{ from, to, seconds: rows[i]![j]! }])));
  } catch (error) {
    if (!(error instanceof BlockRefused)) throw error;
    const smaller = halves(block);
    if (smaller.length === 0) return [{ from: block.from[0]!, to: block.to[0]!, seconds: null }];
    const cells: CellRow[] = [];
    for (const part of smaller) cells.push(...(await answer(service, part)));
    return cells;
  }
}
