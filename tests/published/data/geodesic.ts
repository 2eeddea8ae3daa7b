// Geodesics on the ellipsoid and great circles on the sphere, as published.
import type { PublishedCase } from './publishedCase.ts';

const karney = 'Karney, GeographicLib geodesic test set (2010-2023)';
const vincenty = 'ICSM, GDA Technical Manual (2014), chapter 4; Vincenty, Survey Review 23 (1975) 88-93';
const nashville = 'Rosetta Code, Haversine formula, Nashville BNA to Los Angeles LAX';

type Place = { lat: number; lon: number };

/** `sphereKm`: the same line on a sphere of 6371.0088 km, computed. */
export const geodesics: (PublishedCase & { from: Place; to: Place; ellipsoidKm: number; sphereKm?: number })[] = [
  {
    name: 'line 0', source: karney, status: 'found',
    from: { lat: 35.60777, lon: -139.44815 }, to: { lat: -11.17491, lon: -69.95921 },
    ellipsoidKm: 8935.24456048183, sphereKm: 8940.964827817095,
  },
  {
    name: 'line 1', source: karney, status: 'found',
    from: { lat: 55.52454, lon: 106.05087 }, to: { lat: 77.03196, lon: 197.18234 },
    ellipsoidKm: 4105.0861713924405, sphereKm: 4090.874914927776,
  },
  {
    name: 'line 2', source: karney, status: 'found',
    from: { lat: -21.97856, lon: 142.59065 }, to: { lat: 41.84138, lon: 98.56635 },
    ellipsoidKm: 8394.328894657672, sphereKm: 8416.832845714922,
  },
  {
    name: 'line 9', source: karney, status: 'found',
    from: { lat: -68.82867, lon: -74.28391 }, to: { lat: -50.63005, lon: -8.36685 },
    ellipsoidKm: 3956.936926063544, sphereKm: 3944.6239698668564,
  },
  {
    name: 'line 11', source: karney, status: 'found',
    from: { lat: -21.76221, lon: 166.90563 }, to: { lat: 48.72884, lon: 213.97627 },
    ellipsoidKm: 9098.627398655492, sphereKm: 9121.750196963689,
  },
  {
    name: 'line 12', source: karney, status: 'found',
    from: { lat: -19.79938, lon: -174.47484 }, to: { lat: -11.99349, lon: -154.35109 },
    ellipsoidKm: 2319.004860116939, sphereKm: 2317.828318355177,
  },
  {
    name: 'Flinders Peak - Buninyong', source: vincenty, status: 'from memory, recomputed',
    from: { lat: -37.95103341666667, lon: 144.42486788888888 }, to: { lat: -37.65282113888889, lon: 143.92649552777777 },
    ellipsoidKm: 54.972271,
  },
];

export const greatCircles: (PublishedCase & { from: Place; to: Place; radiusKm: number; km: number })[] = [
  {
    name: 'sphere of 6372.8 km', source: nashville, status: 'found',
    from: { lat: 36.12, lon: -86.67 }, to: { lat: 33.94, lon: -118.4 },
    radiusKm: 6372.8, km: 2887.25995060711,
  },
  {
    name: 'sphere of 6371.0 km', source: nashville, status: 'found',
    from: { lat: 36.12, lon: -86.67 }, to: { lat: 33.94, lon: -118.4 },
    radiusKm: 6371.0, km: 2886.444442837983,
  },
];
