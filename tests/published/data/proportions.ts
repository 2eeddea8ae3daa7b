// Intervals of one share and of the difference of two, as published.
import type { PublishedCase } from './publishedCase.ts';

const newcombeTable = 'Newcombe, Statistics in Medicine 17 (1998) 857-872, Table I';
const newcombeDifferences = 'Newcombe, Statistics in Medicine 17 (1998) 873-890, Table II, method 10';

type ShareCase = PublishedCase & { share: { count: number; total: number }; wilson: [number, number]; clopperPearson: [number, number] };

export const shares: ShareCase[] = [
  {
    name: 'proportion 81/263',
    source: newcombeTable,
    status: 'Wilson found, Clopper-Pearson from memory',
    share: { count: 81, total: 263 },
    wilson: [0.255288519878274, 0.3662095769828],
    clopperPearson: [0.252736745585271, 0.367621922601351],
  },
  {
    name: 'proportion 15/148',
    source: newcombeTable,
    status: 'Wilson found, Clopper-Pearson from memory',
    share: { count: 15, total: 148 },
    wilson: [0.0623863995307363, 0.160487241723308],
    clopperPearson: [0.0578440100834486, 0.161650490349479],
  },
  {
    name: 'proportion 3/40',
    source: 'computed with R 4.2.2',
    status: 'computed',
    share: { count: 3, total: 40 },
    wilson: [0.0258360257745882, 0.1986423352431054],
    clopperPearson: [0.0157421798510415, 0.2038647487328989],
  },
  {
    name: 'proportion 0/57',
    source: 'computed with R 4.2.2',
    status: 'computed',
    share: { count: 0, total: 57 },
    wilson: [0.0, 0.0631388348529789],
    clopperPearson: [0.0, 0.0626674809144849],
  },
];

type Share = { count: number; total: number };

export const differences: (PublishedCase & { first: Share; other: Share; difference: number; lower: number; upper: number })[] = [
  {
    name: '56/70 - 48/80',
    source: newcombeDifferences, status: 'found',
    first: { count: 56, total: 70 }, other: { count: 48, total: 80 },
    difference: 0.2000000000000001, lower: 0.0524314724023649, upper: 0.3338726540369059,
  },
  {
    name: '9/10 - 3/10',
    source: newcombeDifferences, status: 'found',
    first: { count: 9, total: 10 }, other: { count: 3, total: 10 },
    difference: 0.6, lower: 0.170522723934503, upper: 0.809017973535488,
  },
  {
    name: '5/56 - 0/29',
    source: newcombeDifferences, status: 'found',
    first: { count: 5, total: 56 }, other: { count: 0, total: 29 },
    difference: 0.0892857142857143, lower: -0.0381371479035369, upper: 0.1925600138551116,
  },
  {
    name: '0/10 - 0/10',
    source: newcombeDifferences, status: 'found',
    first: { count: 0, total: 10 }, other: { count: 0, total: 10 },
    difference: 0.0, lower: -0.277532799862889, upper: 0.277532799862889,
  },
];
