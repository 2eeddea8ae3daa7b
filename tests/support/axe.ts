// What axe-core finds on a page. Our pages hold no frames, so its rules run once in the page itself, and only violations are gathered.
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

export const WCAG_22_AA = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** The violations of the rules with these tags, or of all rules. @throws Error when the page holds a frame, which would go unseen. */
export async function violationsOn(page: Page, tags?: string[]) {
  if (page.frames().length > 1) throw new Error('The page holds a frame.');
  const axe = new AxeBuilder({ page }).setLegacyMode().options({ resultTypes: ['violations'] });
  if (tags) axe.withTags(tags);
  return (await axe.analyze()).violations;
}
