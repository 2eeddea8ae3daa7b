// Straight-line distances against published great circles, and how far the sphere is from the ellipsoid.
import { describe, expect, it } from 'vitest';
import { greatCircleKm } from '@backsight/scheduling/travel';
import { geodesics, greatCircles } from './data/geodesic.ts';

describe('great circle', () => {
  it.each(greatCircles)('$name ($source; $status)', ({ from, to, radiusKm, km }) => {
    expect(Math.abs(greatCircleKm(from, to, radiusKm) - km)).toBeLessThan(1e-8);
  });

  it.each(geodesics)('$name: within 0.6 % of the ellipsoid, both ways ($source; $status)', ({ from, to, ellipsoidKm, sphereKm }) => {
    const km = greatCircleKm(from, to);
    expect(Math.abs(km / ellipsoidKm - 1)).toBeLessThan(0.006);
    expect(greatCircleKm(to, from)).toBeCloseTo(km, 9);
    if (sphereKm !== undefined) expect(km).toBeCloseTo(sphereKm, 6);
  });

  it('is nothing to the same place and half the circumference to the opposite one', () => {
    expect(greatCircleKm({ lat: 44.2, lon: -88.1 }, { lat: 44.2, lon: -88.1 })).toBe(0);
    expect(greatCircleKm({ lat: 90, lon: 0 }, { lat: -90, lon: 0 }, 1)).toBeCloseTo(Math.PI, 12);
  });
});
