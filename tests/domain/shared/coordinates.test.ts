// Pasted coordinates: the ways of writing them, and what is none.
import { describe, expect, it } from 'vitest';
import { readCoordinates } from '@backsight/domain/shared/coordinates';

describe('readCoordinates', () => {
  it.each([
    ['44.03, -88.54', 44.03, -88.54],
    ['44.03 -88.54', 44.03, -88.54],
    ['(44.03; -88.54)', 44.03, -88.54],
    ['44.03N 88.54W', 44.03, -88.54],
    ['N 44.03, W 88.54', 44.03, -88.54],
    ['88.54W, 44.03N', 44.03, -88.54],
    [`44°1'48"N 88°32'24"W`, 44.03, -88.54],
    ['44° 1.8′ N, 88° 32.4′ W', 44.03, -88.54],
    ['44.0312345678, -88', 44.031235, -88],
    ['-33.9 151.2', -33.9, 151.2],
  ])('reads %s', (text, lat, lon) => expect(readCoordinates(text)).toEqual({ lat, lon }));

  it.each(['', '44.03', '44.03, -88.54, 3', '91, 10', '44, 181', '44N 88N', '12 Main Street', '44.03, -88.54 please', 'nan, nan'])(
    'refuses "%s"',
    (text) => expect(readCoordinates(text)).toBeNull(),
  );
});
