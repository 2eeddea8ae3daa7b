// Assignment and matching: who goes where, and who goes with whom.
import type { PublishedCase } from './publishedCase.ts';

const scipy = 'SciPy reference, linear_sum_assignment, documentation example';
const own = 'instance from a seed, optimum by exhaustive enumeration';
const matching = 'Z. Galil, ACM Computing Surveys 18 (1986) 23-38; cases of J. van Rantwijk, mwmatching unit tests (2008)';

export const assignments: (PublishedCase & { cost: number[][]; most: boolean; optimum: number })[] = [
  {
    name: '3x3 documentation example', source: scipy, status: 'from memory, recomputed', most: false, optimum: 5,
    cost: [[4, 1, 3], [2, 0, 5], [3, 2, 2]],
  },
  {
    name: '7x7 random', source: own, status: 'computed with scipy 1.10.1 and by enumeration', most: false, optimum: 68,
    cost: [[57, 2, 51, 24, 16, 32, 3], [15, 51, 9, 40, 28, 25, 20], [14, 47, 34, 27, 29, 26, 27], [34, 35, 35, 16, 25, 48, 4], [47, 11, 36, 10, 43, 8, 13], [23, 26, 10, 14, 10, 30, 44], [23, 49, 16, 26, 53, 19, 23]],
  },
  {
    name: '5x8 rectangular random', source: own, status: 'computed with scipy 1.10.1 and by enumeration', most: false, optimum: 14,
    cost: [[17, 57, 41, 4, 16, 58, 36, 36], [34, 13, 19, 2, 30, 51, 41, 1], [22, 16, 4, 32, 21, 54, 58, 20], [13, 46, 46, 9, 15, 4, 8, 35], [26, 57, 13, 53, 1, 13, 59, 48]],
  },
  {
    name: '7x7 random maximise', source: own, status: 'computed with scipy 1.10.1 and by enumeration', most: true, optimum: 330,
    cost: [[57, 2, 51, 24, 16, 32, 3], [15, 51, 9, 40, 28, 25, 20], [14, 47, 34, 27, 29, 26, 27], [34, 35, 35, 16, 25, 48, 4], [47, 11, 36, 10, 43, 8, 13], [23, 26, 10, 14, 10, 30, 44], [23, 49, 16, 26, 53, 19, 23]],
  },
];

/** File assign100 of the OR-Library; the data are not part of this repository. */
export const orLibrary = {
  name: 'assign100', source: 'J. E. Beasley, OR-Library: Journal of the Operational Research Society 41 (1990) 1069-1072', status: 'found',
  optimum: 305,
};

export type Edge = [a: number, b: number, weight: number];

/** `pairs`: how many couples are formed; null when that is free. */
export const matchings: (PublishedCase & { edges: Edge[]; most: boolean; pairs: number | null; weight: number })[] = [
  {
    name: 'path of 2 edges', source: matching, status: 'from memory, verified by enumeration', most: true, pairs: null, weight: 11,
    edges: [[1, 2, 10], [2, 3, 11]],
  },
  {
    name: 'path of 3 edges', source: matching, status: 'from memory, verified by enumeration', most: true, pairs: null, weight: 11,
    edges: [[1, 2, 5], [2, 3, 11], [3, 4, 5]],
  },
  {
    name: 'path of 3 edges, max cardinality', source: matching, status: 'from memory, verified by enumeration', most: true, pairs: 2, weight: 10,
    edges: [[1, 2, 5], [2, 3, 11], [3, 4, 5]],
  },
  {
    name: 'negative weights', source: matching, status: 'from memory, verified by enumeration', most: true, pairs: null, weight: 2,
    edges: [[1, 2, 2], [1, 3, -2], [2, 3, 1], [2, 4, -1], [3, 4, -6]],
  },
  {
    name: 'negative weights, max cardinality', source: matching, status: 'from memory, verified by enumeration', most: true, pairs: 2, weight: -3,
    edges: [[1, 2, 2], [1, 3, -2], [2, 3, 1], [2, 4, -1], [3, 4, -6]],
  },
  {
    name: 'S-blossom', source: matching, status: 'from memory, verified by enumeration', most: true, pairs: null, weight: 15,
    edges: [[1, 2, 8], [1, 3, 9], [2, 3, 10], [3, 4, 7]],
  },
  {
    name: 'S-blossom with tail', source: matching, status: 'from memory, verified by enumeration', most: true, pairs: null, weight: 21,
    edges: [[1, 2, 8], [1, 3, 9], [2, 3, 10], [3, 4, 7], [1, 6, 5], [4, 5, 6]],
  },
  {
    name: 'T-blossom', source: matching, status: 'from memory, verified by enumeration', most: true, pairs: null, weight: 17,
    edges: [[1, 2, 9], [1, 3, 8], [2, 3, 10], [1, 4, 5], [4, 5, 4], [1, 6, 3]],
  },
  {
    name: 'perfect matching, 8 people, maximum', source: own, status: 'computed by enumeration', most: true, pairs: 4, weight: 181,
    edges: [[1, 2, 9], [1, 3, 37], [1, 4, 49], [1, 5, 5], [1, 6, 17], [1, 7, 8], [1, 8, 32], [2, 3, 49], [2, 4, 29], [2, 5, 31], [2, 6, 42], [2, 7, 25], [2, 8, 14], [3, 4, 7], [3, 5, 32], [3, 6, 2], [3, 7, 25], [3, 8, 28], [4, 5, 39], [4, 6, 49], [4, 7, 50], [4, 8, 1], [5, 6, 45], [5, 7, 29], [5, 8, 18], [6, 7, 47], [6, 8, 15], [7, 8, 38]],
  },
  {
    name: 'perfect matching, 8 people, minimum', source: own, status: 'computed by enumeration', most: false, pairs: 4, weight: 33,
    edges: [[1, 2, 9], [1, 3, 37], [1, 4, 49], [1, 5, 5], [1, 6, 17], [1, 7, 8], [1, 8, 32], [2, 3, 49], [2, 4, 29], [2, 5, 31], [2, 6, 42], [2, 7, 25], [2, 8, 14], [3, 4, 7], [3, 5, 32], [3, 6, 2], [3, 7, 25], [3, 8, 28], [4, 5, 39], [4, 6, 49], [4, 7, 50], [4, 8, 1], [5, 6, 45], [5, 7, 29], [5, 8, 18], [6, 7, 47], [6, 8, 15], [7, 8, 38]],
  },
  {
    name: 'perfect matching, 10 people, maximum', source: own, status: 'computed by enumeration', most: true, pairs: 5, weight: 205,
    edges: [[1, 2, 4], [1, 3, 6], [1, 4, 6], [1, 5, 24], [1, 6, 11], [1, 7, 48], [1, 8, 43], [1, 9, 20], [1, 10, 17], [2, 3, 39], [2, 4, 14], [2, 5, 39], [2, 6, 3], [2, 7, 38], [2, 8, 44], [2, 9, 11], [2, 10, 28], [3, 4, 41], [3, 5, 26], [3, 6, 47], [3, 7, 33], [3, 8, 24], [3, 9, 35], [3, 10, 29], [4, 5, 33], [4, 6, 18], [4, 7, 3], [4, 8, 2], [4, 9, 24], [4, 10, 30], [5, 6, 21], [5, 7, 25], [5, 8, 28], [5, 9, 34], [5, 10, 11], [6, 7, 36], [6, 8, 12], [6, 9, 16], [6, 10, 15], [7, 8, 2], [7, 9, 12], [7, 10, 21], [8, 9, 12], [8, 10, 9], [9, 10, 33]],
  },
  {
    name: 'perfect matching, 10 people, minimum', source: own, status: 'computed by enumeration', most: false, pairs: 5, weight: 34,
    edges: [[1, 2, 4], [1, 3, 6], [1, 4, 6], [1, 5, 24], [1, 6, 11], [1, 7, 48], [1, 8, 43], [1, 9, 20], [1, 10, 17], [2, 3, 39], [2, 4, 14], [2, 5, 39], [2, 6, 3], [2, 7, 38], [2, 8, 44], [2, 9, 11], [2, 10, 28], [3, 4, 41], [3, 5, 26], [3, 6, 47], [3, 7, 33], [3, 8, 24], [3, 9, 35], [3, 10, 29], [4, 5, 33], [4, 6, 18], [4, 7, 3], [4, 8, 2], [4, 9, 24], [4, 10, 30], [5, 6, 21], [5, 7, 25], [5, 8, 28], [5, 9, 34], [5, 10, 11], [6, 7, 36], [6, 8, 12], [6, 9, 16], [6, 10, 15], [7, 8, 2], [7, 9, 12], [7, 10, 21], [8, 9, 12], [8, 10, 9], [9, 10, 33]],
  },
];

export type Skilled = { id: string; skills: number[]; lead: boolean; x: number; y: number };
export type Job = { id: string; needs: number[]; x: number; y: number };

/** One job at a time for each pair; a lead in every pair; cost is the sum of the two Manhattan distances; an undone job costs 60. */
export const pairsToJobs: (PublishedCase & { optimum: number; people: Skilled[]; jobs: Job[]; apart: [string, string][] })[] = [
  {
    name: 'pair-to-job, 8 people 4 jobs', source: own, status: 'computed by enumeration', optimum: 119,
    people: [
      { id: 'P1', skills: [1, 3], lead: false, x: 37, y: 12 },
      { id: 'P2', skills: [3], lead: false, x: 11, y: 6 },
      { id: 'P3', skills: [0, 2], lead: true, x: 40, y: 2 },
      { id: 'P4', skills: [0, 1, 3], lead: false, x: 33, y: 4 },
      { id: 'P5', skills: [0], lead: true, x: 15, y: 38 },
      { id: 'P6', skills: [3], lead: true, x: 37, y: 12 },
      { id: 'P7', skills: [1, 2, 3], lead: true, x: 5, y: 29 },
      { id: 'P8', skills: [0, 1, 2], lead: false, x: 20, y: 14 },
    ],
    jobs: [
      { id: 'J1', needs: [0, 3], x: 36, y: 6 },
      { id: 'J2', needs: [0, 1], x: 24, y: 4 },
      { id: 'J3', needs: [0], x: 13, y: 13 },
      { id: 'J4', needs: [3], x: 24, y: 25 },
    ],
    apart: [['P1', 'P7'], ['P4', 'P7']],
  },
  {
    name: 'pair-to-job, 9 people 4 jobs', source: own, status: 'computed by enumeration', optimum: 148,
    people: [
      { id: 'P1', skills: [0, 1, 2, 4], lead: true, x: 23, y: 30 },
      { id: 'P2', skills: [1, 2, 3], lead: true, x: 39, y: 9 },
      { id: 'P3', skills: [0, 1, 2, 3], lead: true, x: 12, y: 4 },
      { id: 'P4', skills: [0, 3, 4], lead: false, x: 32, y: 14 },
      { id: 'P5', skills: [3], lead: false, x: 7, y: 27 },
      { id: 'P6', skills: [2, 4], lead: false, x: 35, y: 10 },
      { id: 'P7', skills: [4], lead: true, x: 5, y: 25 },
      { id: 'P8', skills: [1, 2, 3, 4], lead: false, x: 5, y: 12 },
      { id: 'P9', skills: [2, 3, 4], lead: true, x: 19, y: 7 },
    ],
    jobs: [
      { id: 'J1', needs: [1, 2], x: 23, y: 23 },
      { id: 'J2', needs: [0], x: 24, y: 27 },
      { id: 'J3', needs: [4], x: 1, y: 14 },
      { id: 'J4', needs: [0, 3], x: 13, y: 38 },
    ],
    apart: [['P2', 'P4'], ['P2', 'P3']],
  },
];
