// Sunrise and sunset against published almanac values.
import { describe, expect, it } from 'vitest';
import { sunriseMinute, sunsetMinute } from '@backsight/scheduling/daylight';

/**
 * U.S. Naval Observatory, Astronomical Applications Department, "Complete Sun and Moon Data for One Day" (2026), as kept in
 * the fixtures of the suncalc library. Universal time, whole minutes. place, latitude, longitude, day, rise, set.
 */
const NAVAL_OBSERVATORY: [string, number, number, string, string, string][] = [
  ['Istanbul', 41.01384, 28.94966, '2026-03-20', '04:08', '16:16'],
  ['Istanbul', 41.01384, 28.94966, '2026-06-21', '02:32', '17:40'],
  ['Istanbul', 41.01384, 28.94966, '2026-12-21', '05:26', '14:39'],
  ['Istanbul', 41.01384, 28.94966, '2026-01-10', '05:29', '14:55'],
  ['Bogotá', 4.60971, -74.08175, '2026-03-20', '11:00', '23:07'],
  ['Bogotá', 4.60971, -74.08175, '2026-06-21', '10:47', '23:10'],
  ['Bogotá', 4.60971, -74.08175, '2026-12-21', '10:59', '22:50'],
  ['Bogotá', 4.60971, -74.08175, '2026-01-10', '11:08', '23:00'],
  ['Reykjavík', 64.13548, -21.89541, '2026-03-20', '07:28', '19:43'],
  ['Reykjavík', 64.13548, -21.89541, '2026-06-21', '02:55', '00:03'],
  ['Reykjavík', 64.13548, -21.89541, '2026-12-21', '11:22', '15:29'],
  ['Reykjavík', 64.13548, -21.89541, '2026-01-10', '11:05', '16:05'],
];

/**
 * Computed with astronomy-engine 2.1.19 (upper limb, refraction 34 minutes of arc), seconds on the local clock; days on which
 * clocks change are among them. city, latitude, longitude, day, UTC offset in minutes, rise, set.
 */
const LOCAL_CLOCK: [string, number, number, string, number, string, string][] = [
  ['Boston MA', 42.3601, -71.0589, '2026-03-07', -300, '06:09:38', '17:41:21'],
  ['Boston MA', 42.3601, -71.0589, '2026-03-08', -240, '07:07:58', '18:42:33'],
  ['Boston MA', 42.3601, -71.0589, '2026-03-09', -240, '07:06:17', '18:43:44'],
  ['Boston MA', 42.3601, -71.0589, '2026-06-21', -240, '05:07:32', '20:24:38'],
  ['Boston MA', 42.3601, -71.0589, '2026-10-31', -240, '07:16:23', '17:38:43'],
  ['Boston MA', 42.3601, -71.0589, '2026-11-01', -300, '06:17:38', '16:37:25'],
  ['Boston MA', 42.3601, -71.0589, '2026-11-02', -300, '06:18:52', '16:36:09'],
  ['Boston MA', 42.3601, -71.0589, '2026-12-21', -300, '07:10:06', '16:14:41'],
  ['Chicago IL', 41.8781, -87.6298, '2026-01-05', -360, '07:18:14', '16:33:59'],
  ['Chicago IL', 41.8781, -87.6298, '2026-03-08', -300, '07:13:54', '18:49:08'],
  ['Chicago IL', 41.8781, -87.6298, '2026-07-04', -300, '05:20:55', '20:28:49'],
  ['Chicago IL', 41.8781, -87.6298, '2026-11-01', -360, '06:23:05', '16:44:33'],
  ['Denver CO', 39.7392, -104.9903, '2026-03-08', -360, '07:22:10', '18:59:41'],
  ['Denver CO', 39.7392, -104.9903, '2026-06-21', -360, '05:32:13', '20:31:26'],
  ['Denver CO', 39.7392, -104.9903, '2026-11-01', -420, '06:28:46', '16:57:47'],
  ['Denver CO', 39.7392, -104.9903, '2028-02-29', -420, '06:33:32', '17:51:40'],
  ['Phoenix AZ', 33.4484, -112.074, '2026-03-08', -420, '06:47:34', '18:30:49'],
  ['Phoenix AZ', 33.4484, -112.074, '2026-11-01', -420, '06:47:09', '17:36:09'],
  ['Phoenix AZ', 33.4484, -112.074, '2026-12-21', -420, '07:28:26', '17:24:35'],
  ['Los Angeles CA', 34.0522, -118.2437, '2026-03-20', -420, '06:56:24', '19:04:45'],
  ['Los Angeles CA', 34.0522, -118.2437, '2026-09-22', -420, '06:41:12', '18:49:25'],
  ['Los Angeles CA', 34.0522, -118.2437, '2027-03-14', -420, '07:04:52', '18:59:55'],
  ['Anchorage AK', 61.2181, -149.9003, '2026-06-21', -480, '04:20:20', '23:42:37'],
  ['Anchorage AK', 61.2181, -149.9003, '2026-12-21', -540, '10:14:19', '15:41:25'],
];

const minutesOf = (clock: string): number => {
  const [hours, minutes, seconds = 0] = clock.split(':').map(Number);
  return hours! * 60 + minutes! + seconds / 60;
};

/** Distance on the clock, across midnight if that is shorter: an almanac lists the events inside a UTC day. */
const clockGap = (a: number, b: number): number => {
  const gap = (((a - b) % 1440) + 1440) % 1440;
  return Math.min(gap, 1440 - gap);
};

describe('sunrise and sunset', () => {
  it.each(NAVAL_OBSERVATORY)('U.S. Naval Observatory: %s %d %d %s', (_place, lat, lon, day, rise, set) => {
    // Almanac minutes are rounded, and an event near midnight may belong to the neighboring day, hence one minute.
    expect(clockGap(sunriseMinute({ lat, lon }, day, 0), minutesOf(rise))).toBeLessThanOrEqual(1);
    expect(clockGap(sunsetMinute({ lat, lon }, day, 0), minutesOf(set))).toBeLessThanOrEqual(1);
  });

  it.each(LOCAL_CLOCK)('astronomy-engine: %s %d %d %s', (_city, lat, lon, day, offset, rise, set) => {
    expect(Math.abs(sunriseMinute({ lat, lon }, day, offset) - minutesOf(rise))).toBeLessThanOrEqual(1);
    expect(Math.abs(sunsetMinute({ lat, lon }, day, offset) - minutesOf(set))).toBeLessThanOrEqual(1);
  });

  // Reda, Andreas, "Solar Position Algorithm for Solar Radiation Applications", NREL/TP-560-34302, table A5.1: sunrise
  // 06:12:43 in Golden, Colorado; its printed sunset belongs to the day before.
  it('National Renewable Energy Laboratory: worked example of 2003-10-17', () => {
    expect(Math.abs(sunriseMinute({ lat: 39.742476, lon: -105.1786 }, '2003-10-17', -420) - minutesOf('06:12:43'))).toBeLessThanOrEqual(1);
  });

  it('north of the polar circle the sun stays up in June and down in December', () => {
    const place = { lat: 78.2, lon: 15.6 };
    expect([sunsetMinute(place, '2026-06-21', 120), sunriseMinute(place, '2026-06-21', 120)]).toEqual([Infinity, -Infinity]);
    expect([sunsetMinute(place, '2026-12-21', 60), sunriseMinute(place, '2026-12-21', 60)]).toEqual([-Infinity, Infinity]);
  });
});
