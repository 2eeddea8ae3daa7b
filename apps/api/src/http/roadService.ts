// The road service of the settings, if there is one; and asking it about a place while somebody is still on the phone.
import { createHash } from 'node:crypto';
import { fillTravel, type RoadService } from '@backsight/usecases/schedule/fillTravel';
import type { Config } from '../config.ts';
import type { Services } from './services.ts';
import { osrm } from '../adapters/roads/osrm.ts';
import { valhalla } from '../adapters/roads/valhalla.ts';

const KINDS = { osrm, valhalla } as const;

/** The service at the configured address, and nowhere else; null when none is set. Another address is another engine. */
export function roadServiceOf({ travel }: Config): RoadService | null {
  if (!travel) return null;
  const service = KINDS[travel.service](travel);
  const address = createHash('sha256').update(travel.url).digest('hex').slice(0, 8);
  return { ...service, engine: async (near) => `${await service.engine(near)} @${address}` };
}

const AGAIN_MS = 60_000;
const asked = new Map<string, number>();

/** Asks for the driving times of a place without making anybody wait: the search of now uses the estimate, the next one the answer. */
export function askAhead(services: Services, place: { lat: number; lon: number }): void {
  const service = roadServiceOf(services.config);
  if (!service) return;
  const now = services.clock().getTime();
  const key = `${place.lat.toFixed(4)},${place.lon.toFixed(4)}`;
  for (const [one, at] of asked) if (Math.abs(now - at) >= AGAIN_MS) asked.delete(one);
  if (asked.has(key)) return;
  asked.set(key, now);
  void fillTravel(services, service, [place]).catch((error: unknown) => console.error('asking the road service:', error));
}
