// Great-circle distance against published values.
import { describe, expect, it } from 'vitest';
import { EARTH_RADIUS_KM, greatCircleKm } from '@backsight/scheduling/travel';

// Rosetta Code, task "Haversine formula" (2013): Nashville airport to Los Angeles airport, with two radii.
const AIRPORTS = [
  { radius: 6372.8, km: 2887.25995060711 },
  { radius: 6371, km: 2886.444442837983 },
];

/**
 * C. F. F. Karney, GeographicLib geodesic test set: latitude and longitude of both ends and the geodesic on WGS 84 in meters.
 * A sphere of mean radius stays within 0.56 % of it.
 */
const GEODESICS: [number, number, number, number, number][] = [
  [35.60777, -139.44815, -11.17491, -69.95921, 8935244.56048183],
  [55.52454, 106.05087, 77.03196, 197.18234, 4105086.171392441],
  [-21.97856, 142.59065, 41.84138, 98.56635, 8394328.894657671],
  [-68.82867, -74.28391, -50.63005, -8.36685, 3956936.926063544],
  [-21.76221, 166.90563, 48.72884, 213.97627, 9098627.398655491],
  [-19.79938, -174.47484, -11.99349, -154.35109, 2319004.860116939],
  // T. Vincenty, Flinders Peak to Buninyong, in: GDA Technical Manual (published values from memory, recomputed).
  [-37.95103341666667, 144.42486788888888, -37.65282113888889, 143.92649552777777, 54972.271],
];

describe('great-circle distance', () => {
  it.each(AIRPORTS)('haversine with radius $radius km', ({ radius, km }) => {
    expect(greatCircleKm({ lat: 36.12, lon: -86.67 }, { lat: 33.94, lon: -118.4 }, radius)).toBeCloseTo(km, 8);
  });

  it.each(GEODESICS)('geodesic from %d %d to %d %d', (lat1, lon1, lat2, lon2, meters) => {
    const km = greatCircleKm({ lat: lat1, lon: lon1 }, { lat: lat2, lon: lon2 });
    expect(Math.abs(km * 1000 - meters) / meters).toBeLessThan(0.0056);
  });

  it('uses the mean radius (2a + b) / 3 of the Geodetic Reference System 1980', () => {
    expect((2 * 6378.137 + 6356.7523141) / 3).toBeCloseTo(EARTH_RADIUS_KM, 4);
  });

  it('is the same both ways, 0 at the same place, and half the circumference to the other side of the Earth', () => {
    const [a, b] = [
      { lat: 44.02, lon: -89.1 },
      { lat: 43.9, lon: -88.7 },
    ];
    expect(greatCircleKm(a, b)).toBe(greatCircleKm(b, a));
    expect(greatCircleKm(a, a)).toBe(0);
    expect(greatCircleKm({ lat: 0, lon: 0 }, { lat: 0, lon: 180 })).toBeCloseTo(Math.PI * EARTH_RADIUS_KM, 9);
  });
});
