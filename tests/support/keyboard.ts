// Moving through a page with the keyboard alone, as the booking desk promises.
import type { Page } from 'playwright-core';

/** Moves on with Tab until the input or button of that name has the focus. */
export async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let presses = 0; presses < 120; presses++) {
    const here = await page.evaluate(() => {
      const at = document.activeElement as HTMLInputElement | null;
      // With the focus nowhere it is the page's own body, whose text holds every name.
      if (at === document.body) return '';
      return at?.labels?.[0]?.textContent ?? at?.getAttribute('aria-label') ?? at?.textContent ?? '';
    });
    if (name.test(here)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`the keyboard does not reach ${name}`);
}
