// Moving through a page with the keyboard alone, as the booking desk promises.
import type { Page } from 'playwright-core';

/** The name of what has the focus, as it is read out; empty when nothing has it. */
export const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const at = document.activeElement as HTMLInputElement | null;
    const named = at?.labels?.[0]?.textContent ?? at?.getAttribute('aria-label');
    // What holds others (the body when the focus is nowhere, the content of a screen, a window) has all their words for its text.
    return (named ?? (at?.matches('a, button, summary, [role=option], [role=tab]') ? at.textContent : '') ?? '').trim();
  });

/** Moves on with Tab until the input or button of that name has the focus. Answers the names of what had it on the way. */
export async function tabTo(page: Page, name: RegExp): Promise<string[]> {
  const passed: string[] = [];
  for (let presses = 0; presses < 120; presses++) {
    const here = await focused(page);
    passed.push(here);
    if (name.test(here)) return passed;
    await page.keyboard.press('Tab');
  }
  throw new Error(`the keyboard does not reach ${name}`);
}

/** Moves on to it with Tab, and presses Enter. */
export async function pressOn(page: Page, name: RegExp): Promise<void> {
  await tabTo(page, name);
  await page.keyboard.press('Enter');
}
