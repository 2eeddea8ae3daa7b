// Drawings: whoever cannot see them reads the same numbers, and whoever prints them in black and white tells the points apart.
import { createElement, type ReactNode } from 'react';
import { MantineProvider } from '@mantine/core';
import { createMemoryHistory, createRootRoute, createRouter, RouterContextProvider } from '@tanstack/react-router';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { ControlChart } from '../../../apps/web/src/ui/charts/ControlChart.tsx';
import { DevelopmentLines } from '../../../apps/web/src/ui/charts/DevelopmentLines.tsx';
import { findingOf, gapFindingOf } from '../../../apps/web/src/ui/charts/findings.ts';
import { FunnelChart } from '../../../apps/web/src/ui/charts/FunnelChart.tsx';
import { IntervalBars } from '../../../apps/web/src/ui/charts/IntervalBars.tsx';
import { ParetoChart } from '../../../apps/web/src/ui/charts/ParetoChart.tsx';
import { apart, everyNth, ticks } from '../../../apps/web/src/ui/charts/plot.ts';

const words = { title: 'Callbacks by month', summary: 'May lies above what chance allows.' };
/** Inside an address, which a long table keeps in mind how much of it is shown. */
const router = createRouter({ routeTree: createRootRoute(), history: createMemoryHistory() });
const draw = (node: ReactNode): string =>
  renderToStaticMarkup(createElement(MantineProvider, null, createElement(RouterContextProvider, { router, children: node } as never)));
/** Cells of the rows under the drawing, without the labels that a phone shows. */
const cells = (html: string): string[][] =>
  [...html.split('<tbody')[1]!.matchAll(/<tr.*?<\/tr>/g)].map(([row]) =>
    [...row.replaceAll(/<span[^>]*aria-hidden="true">.*?<\/span>/g, '').matchAll(/<t[hd].*?<\/t[hd]>/g)].map(([cell]) =>
      cell.replaceAll(/<[^>]+>/g, ''),
    ),
  );

const signal = (rule: string) => [{ rule, side: 'above' as const, sentence: 'May: a signal.' }];
const limits = { center: 1, lower: 0, upper: 3 };
const control = createElement(ControlChart, {
  ...words,
  xName: 'Month',
  yName: 'Callbacks per 100 jobs',
  goodSide: 'below' as const,
  marks: [{ at: 1, label: 'Revision 2' }],
  points: [
    { label: 'April', value: 2, ...limits, signals: signal('run') },
    { label: 'No job', value: null, center: 1, lower: null, upper: null },
    { label: 'May', value: 4, ...limits, signals: signal('beyond_limits') },
    { label: 'June', value: 1, ...limits },
  ],
});
const band = {
  name: '95 in 100',
  at: [
    { size: 1, lower: null, upper: 4 },
    { size: 9, lower: 0.4, upper: 1.8 },
  ],
};
const points = [
  { key: 'a', label: 'A pair', size: 9, value: 2.5, outside: 'outer' as const },
  { key: 'b', label: 'Another', size: 4, value: 1, outside: null },
];
const funnel = createElement(FunnelChart, {
  ...{ ...words, bands: [band, { ...band, name: '998 in 1,000' }] as const, target: 1 },
  ...{ pointName: 'Pair', xName: 'Expected', yName: 'Found over expected', points },
});
const bars = Array.from({ length: 20 }, (_, at) => ({ key: String(at), name: `Step ${at + 1}`, value: at === 19 ? 0 : 19 - at }));
const pareto = createElement(ParetoChart, { ...words, barName: 'Step', xName: 'Failures', bars });
const rows = [
  { key: 'a', name: 'Up to 9 years', value: 2, lower: 1, upper: null },
  { key: 'b', name: 'Unknown', value: null, lower: null, upper: null },
];
const intervals = createElement(IntervalBars, { ...words, rowName: 'Age', xName: 'In 100 jobs', ends: '95 %', rows });
const lines = [{ name: 'Q1', known: [{ age: 3, value: 1 }], expected: [{ age: 6, value: 4 }] }];
const development = createElement(DevelopmentLines, { ...words, lineName: 'Quarter', xName: 'Months', yName: 'Callbacks', lines });

describe.each([
  ['control chart', control, ['April', '2', '1', '0', '3', 'May: a signal.']],
  ['funnel', funnel, ['A pair', '9', '2.5', 'beyond the wide limits']],
  ['bars with the line of their sum', pareto, ['Step 1', '19', '10 %', '10 %']],
  ['intervals', intervals, ['Up to 9 years', '2', '1', 'none']],
  ['lines of development', development, ['Q1', '1', '4 expected']],
])('%s', (_, node, first) => {
  const html = draw(node);
  it('has a title, a summary that is read out, and no number that is none', () => {
    const [, title, summary] = /<svg[^>]*role="img" aria-labelledby="([^"]+)" aria-describedby="([^"]+)"/.exec(html)!;
    expect(html).toContain(`id="${title}">${words.title}<`);
    expect(html).toContain(`id="${summary}">${words.summary}<`);
    expect(html).not.toMatch(/NaN|undefined|Infinity/);
  });
  it('holds the same numbers as a table', () => expect(cells(html)[0]).toEqual(first));
});

it('a signal is told by its shape and by words, a month without jobs is a gap, and the change is named', () => {
  const html = draw(control);
  const svg = html.split('role="img"')[1]!.split('</svg>')[0]!;
  expect(svg.match(/<circle/g)).toHaveLength(1);
  expect(new Set([...svg.matchAll(/<path[^>]* d="([^"]+)" transform/g)].map(([, d]) => d)).size).toBe(2);
  expect(svg).toContain('Revision 2');
  expect(html).toContain('May: a signal. Look at what happened then.');
  expect(cells(html)[1]).toEqual(['No job', 'none', '1', 'none', 'none', 'none']);
});

it('the drawing keeps to twelve bars, the table holds all', () => {
  const html = draw(pareto);
  expect(html.split('role="img"')[1]!.split('</svg>')[0]!.match(/<rect/g)).toHaveLength(12);
  expect(html).toContain('8 others');
  expect(cells(html)).toHaveLength(20);
  expect(cells(html).at(-1)).toEqual(['Step 20', '0', '0 %', '100 %']);
});

describe('places', () => {
  it.each([
    [0, 14, 5, false, [0, 5, 10, 15]],
    [0, 0.023, 5, false, [0, 0.005, 0.01, 0.015, 0.02, 0.025]],
    [0, 1, 5, true, [0, 1]],
    [0, 0, 5, false, [0, 0.2, 0.4, 0.6, 0.8, 1]],
    [-3, 8, 4, false, [-5, 0, 5, 10]],
  ])('from %s to %s about %s: round values', (from, to, wanted, whole, expected) =>
    expect(ticks(from, to, wanted, whole)).toEqual(expected),
  );
  it('labels that would touch are left out, lines that would cover each other are moved apart', () => {
    expect(everyNth(['Jan', 'Feb', 'Mar'], 300)).toBe(1);
    expect(
      everyNth(
        Array.from({ length: 30 }, () => 'Jan 2026'),
        300,
      ),
    ).toBe(7);
    expect(apart([50, 51, 10], 14, [0, 100])).toEqual([50, 64, 10]);
    expect(apart([99, 98], 10, [0, 100])).toEqual([100, 90]);
  });
});

describe('a title says what is to be seen, and whether chance allows it', () => {
  const usual = { lower: 0, upper: 3, center: 1 };
  const at = (label: string, value: number, ...rules: [rule: string, side: 'above' | 'below'][]) => ({
    ...usual,
    ...{ label, value, signals: rules.map(([rule, side]) => ({ rule, side, sentence: '' })) },
  });
  const told = (points: Parameters<typeof findingOf>[0]['points']) => findingOf({ points, what: 'Callbacks', format: String });
  it.each([
    [[at('April', 2), at('May', 1)], 'Callbacks were highest in April (2), within what chance allows'],
    [[{ label: 'April', value: 2 }], 'Callbacks were highest in April (2); too little is known yet for limits of chance'],
    [[at('April', 0)], 'Callbacks were none in all that is drawn'],
    [
      [at('April', 9, ['beyond_limits', 'above']), at('May', 4, ['beyond_limits', 'above'], ['run', 'below'])],
      'Callbacks were above what chance allows in May (4) and at 1 other point',
    ],
    [
      [at('May', 1, ['run', 'below'])],
      'Callbacks stood below the center up to May for eight points or more in a row, which chance alone rarely does',
    ],
  ])('%o', (points, title) => expect(told(points)).toBe(title));
  it('tells of gaps whether they grew', () => {
    const gaps = (...points: ReturnType<typeof at>[]) => gapFindingOf({ points, what: 'Failures', format: (n) => `${n} jobs` });
    expect(gaps(at('May', 2))).toBe('Failures came 1 jobs apart in the middle, as evenly as chance allows');
    expect(gaps(at('May', 0, ['beyond_limits', 'below']))).toBe('Failures came closer together than chance allows up to May');
    expect(gaps(at('May', 9, ['run', 'above']))).toMatch(/^Failures came farther apart than in the middle up to May for eight/);
  });
});
