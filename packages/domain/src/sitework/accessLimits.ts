// Measured access against published limits: from which on a standard says that nobody has to go in.
// They say when it is lawful not to enter; they never say that entering is safe.
import type { HazardPlace } from '../shared/places.ts';

/** Inches; what was not measured is absent. */
export type Measures = { headroomIn?: number; widthIn?: number; heightIn?: number };
type Limit = {
  place: HazardPlace | 'any';
  where: string;
  source: string;
  status: 'found' | 'found second-hand' | 'from memory';
  met: (m: Measures) => boolean;
  words: string;
};

const below = (value: number | undefined, limit: number): boolean => value !== undefined && value < limit;
/** An opening may be turned: its smaller side is held against the smaller limit. */
const opening = (m: Measures, small: number, large: number): boolean => {
  const sides = [m.widthIn, m.heightIn].filter((side) => side !== undefined).sort((a, b) => a - b);
  return sides.length === 2 ? sides[0]! < small || sides[1]! < large : sides.length === 1 && sides[0]! < small;
};

const LIMITS: readonly Limit[] = [
  {
    place: 'crawl_space',
    where: 'Texas',
    source: '22 TAC 535.228(a)(2)',
    status: 'found',
    words: 'headroom under 18 in, or an opening under 24 by 18 in',
    met: (m) => below(m.headroomIn, 18) || opening(m, 18, 24),
  },
  {
    place: 'crawl_space',
    where: 'Washington',
    source: 'WAC 308-408C-070(2)',
    status: 'found',
    words: 'an opening under 18 by 24 in, or headroom under 18 in below joists (12 in below girders)',
    met: (m) => below(m.headroomIn, 18) || opening(m, 18, 24),
  },
  {
    place: 'any',
    where: 'New Jersey',
    source: 'N.J.A.C. 13:40-15.16',
    status: 'found second-hand',
    words: 'less than 24 in of height or 30 in of width clear',
    met: (m) => below(m.headroomIn, 24) || below(m.heightIn, 24) || below(m.widthIn, 30),
  },
  {
    place: 'attic',
    where: 'Texas',
    source: '22 TAC 535.228(d)',
    status: 'from memory',
    words: 'an opening under 22 by 30 in, or headroom under 30 in',
    met: (m) => below(m.headroomIn, 30) || opening(m, 22, 30),
  },
];

export type MetLimit = Pick<Limit, 'where' | 'source' | 'status' | 'words'>;

/** Published limits that the measures fall under, with their source. Which of them binds depends on where the house stands. */
export const limitsMet = (place: HazardPlace, measures: Measures): MetLimit[] =>
  LIMITS.filter(
    (limit) => (limit.place === place || (limit.place === 'any' && place !== 'roof' && place !== 'panel')) && limit.met(measures),
  ).map(({ where, source, status, words }) => ({ where, source, status, words }));
