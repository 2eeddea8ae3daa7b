// The first 25 customers of two of Solomon's instances, typed in, with the published optima.
import type { PublishedCase } from './publishedCase.ts';

/** x, y, demand, earliest, latest, service time; the first stop is the depot. Distances are truncated to one decimal. */
export type Stop = readonly [x: number, y: number, demand: number, earliest: number, latest: number, service: number];

const solomon = 'M. M. Solomon, Operations Research 35 (1987) 254-265; 25-customer optima: list by Desrosiers, Kohl and others';

export const VEHICLE_CAPACITY = 200;

export const solomon25: (PublishedCase & { distance: number; vehicles: number; stops: Stop[] })[] = [
  {
    name: 'C101.25', source: solomon, status: 'from memory, recomputed',
    distance: 191.3, vehicles: 3,
    stops: [
      [40, 50, 0, 0, 1236, 0], [45, 68, 10, 912, 967, 90], [45, 70, 30, 825, 870, 90], [42, 66, 10, 65, 146, 90],
      [42, 68, 10, 727, 782, 90], [42, 65, 10, 15, 67, 90], [40, 69, 20, 621, 702, 90], [40, 66, 20, 170, 225, 90],
      [38, 68, 20, 255, 324, 90], [38, 70, 10, 534, 605, 90], [35, 66, 10, 357, 410, 90], [35, 69, 10, 448, 505, 90],
      [25, 85, 20, 652, 721, 90], [22, 75, 30, 30, 92, 90], [22, 85, 10, 567, 620, 90], [20, 80, 40, 384, 429, 90],
      [20, 85, 40, 475, 528, 90], [18, 75, 20, 99, 148, 90], [15, 75, 20, 179, 254, 90], [15, 80, 10, 278, 345, 90],
      [30, 50, 10, 10, 73, 90], [30, 52, 20, 914, 965, 90], [28, 52, 20, 812, 883, 90], [28, 55, 10, 732, 777, 90],
      [25, 50, 10, 65, 144, 90], [25, 52, 40, 169, 224, 90],
    ],
  },
  {
    name: 'R101.25', source: solomon, status: 'from memory, recomputed',
    distance: 617.1, vehicles: 8,
    stops: [
      [35, 35, 0, 0, 230, 0], [41, 49, 10, 161, 171, 10], [35, 17, 7, 50, 60, 10], [55, 45, 13, 116, 126, 10],
      [55, 20, 19, 149, 159, 10], [15, 30, 26, 34, 44, 10], [25, 30, 3, 99, 109, 10], [20, 50, 5, 81, 91, 10],
      [10, 43, 9, 95, 105, 10], [55, 60, 16, 97, 107, 10], [30, 60, 16, 124, 134, 10], [20, 65, 12, 67, 77, 10],
      [50, 35, 19, 63, 73, 10], [30, 25, 23, 159, 169, 10], [15, 10, 20, 32, 42, 10], [30, 5, 8, 61, 71, 10],
      [10, 20, 19, 75, 85, 10], [5, 30, 2, 157, 167, 10], [20, 40, 12, 87, 97, 10], [15, 60, 17, 76, 86, 10],
      [45, 65, 9, 126, 136, 10], [45, 20, 11, 62, 72, 10], [45, 10, 18, 97, 107, 10], [55, 5, 29, 68, 78, 10],
      [65, 35, 3, 153, 163, 10], [65, 20, 6, 172, 182, 10],
    ],
  },
];
