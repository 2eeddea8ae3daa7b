// What axe-core finds on a page. Our pages hold no frames, so its rules run once in the page itself, and only violations are gathered.
import axe from 'axe-core';
import type { Page } from 'playwright-core';

export const WCAG_22_AA = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** Rules whose answer hangs on the theme or on how wide the window is; the others judge what stands in the page, which is the same then. */
export const OF_LOOKS = [
  'color-contrast',
  'link-in-text-block',
  'target-size',
  'scrollable-region-focusable',
  'css-orientation-lock',
  'meta-viewport',
];

/** The violations of the rules with these tags or names, or of all rules. @throws Error when the page holds a frame, which would go unseen. */
export async function violationsOn(page: Page, only?: { tags: string[] } | { rules: string[] }): Promise<axe.Result[]> {
  if (page.frames().length > 1) throw new Error('The page holds a frame.');
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  // a color on its way is none, and even the shortest way begins with the next frame
  await page.evaluate(() =>
    Promise.allSettled(document.getAnimations().flatMap((one) => (one instanceof CSSTransition ? [one.finished] : []))),
  );
  const options: axe.RunOptions = {
    resultTypes: ['violations'],
    ...(only ? { runOnly: 'tags' in only ? { type: 'tag', values: only.tags } : { type: 'rule', values: only.rules } } : {}),
  };
  return page.evaluate(async (chosen) => {
    const judge = (window as unknown as { axe: typeof axe }).axe;
    const { violations } = await judge.run(document, chosen);
    // A target that lies half beneath a bar or a message at the edge is judged where it is scrolled clear of them, as a finger would do it.
    const [left, top] = [scrollX, scrollY];
    for (const small of violations.filter(({ id }) => id === 'target-size')) {
      const still: axe.NodeResult[] = [];
      for (const node of small.nodes) {
        const target = document.querySelector(String(node.target[0]))!;
        target.scrollIntoView({ block: 'center', behavior: 'instant' });
        const again = await judge.run(target, { runOnly: { type: 'rule', values: ['target-size'] } });
        still.push(...again.violations.flatMap(({ nodes }) => nodes));
      }
      small.nodes = still;
    }
    scrollTo(left, top);
    return violations.filter(({ nodes }) => nodes.length > 0);
  }, options);
}
