// Counts what somebody does in the browser, where it happens: one for a press on a control, a field filled, a choice or a keyboard command.
// Tab and scrolling only go somewhere and count nothing; a photo counts three, as `burden.ts` has it: asked for, taken, kept.
import type { BrowserContext } from 'playwright-core';
import { afterAll, expect } from 'vitest';

/** The most inputs that a task may take, and why no more. */
export type Budget = { atMost: number; because: string };

export type Inputs = {
  /** Counts on every page of this context from now on. */
  watch: (context: BrowserContext) => Promise<void>;
  /** Does one task of the day. @throws where it took more inputs than its budget; never for the time that it took, which is only told */
  task: <T>(name: string, budget: Budget, work: () => Promise<T>) => Promise<T>;
};

declare global {
  interface Window {
    inputsMade?: (many: number) => Promise<void>;
  }
}

/** Runs in the page. */
function listen(): void {
  const TYPED = 'textarea, select, input:not([type=radio], [type=checkbox], [type=file], [type=button], [type=submit], [type=range])';
  const PRESSED = 'button, a[href], summary, label, canvas, input, [role=button], [role=option], [role=slider]';
  const PHOTO = 3;
  const made = (many: number): void => void window.inputsMade?.(many);
  const closest = (event: Event, of: string) => (event.target instanceof Element ? event.target.closest<HTMLElement>(of) : null);
  let field: Element | null = null;
  addEventListener(
    'pointerdown',
    (event) => {
      const at = closest(event, PRESSED);
      if (!at || at.matches(TYPED) || (at instanceof HTMLLabelElement && at.control?.matches(TYPED))) return;
      field = null;
      // A press that the test driver takes back, because the page moved beneath it, is tried again and was none.
      setTimeout(() => (event.defaultPrevented && !at.matches('canvas')) || made(1));
    },
    true,
  );
  addEventListener(
    'keydown',
    (event) => {
      if (['Tab', 'Shift', 'Control', 'Alt', 'Meta'].includes(event.key)) return;
      const at = closest(event, TYPED);
      const command = event.ctrlKey || event.metaKey || event.altKey || event.key === 'Escape';
      const goesOn = event.key === 'Enter' || event.key.startsWith('Arrow');
      const types = at && !command && (!goesOn || at.matches('textarea, select'));
      if (types) return;
      if (!at) field = null;
      made(1);
    },
    true,
  );
  addEventListener(
    'input',
    (event) => {
      const at = closest(event, TYPED);
      if (!at || at === field) return;
      field = at;
      made(1);
    },
    true,
  );
  addEventListener('change', (event) => void (closest(event, 'input[type=file]') && made(PHOTO)), true);
  addEventListener('focusout', () => (field = null), true);
}

/** One person's day. Call at the top of a file; when all is done it prints each task with its inputs and seconds. */
export function inputsOf(role: string): Inputs {
  let made = 0;
  const pages: BrowserContext[] = [];
  const told: string[] = [];
  const watch: Inputs['watch'] = async (context) => {
    await context.exposeBinding('inputsMade', (_, many: number) => void (made += many));
    await context.addInitScript(listen);
    await Promise.all(context.pages().map((page) => page.evaluate(listen)));
    pages.push(context);
  };
  /** What was done on a page before is counted when this is answered, also a press that is still being looked at. */
  const counted = async (): Promise<number> => {
    const said = () => new Promise((looked) => setTimeout(looked, 5)).then(() => window.inputsMade?.(0));
    for (const page of pages.flatMap((context) => context.pages())) await page.evaluate(said).catch(() => undefined);
    return made;
  };
  const task: Inputs['task'] = async (name, { atMost, because }, work) => {
    const [before, began] = [await counted(), Date.now()];
    const result = await work();
    const took = (await counted()) - before;
    told.push(`${role}: ${name}: ${took} inputs of at most ${atMost}, ${((Date.now() - began) / 1000).toFixed(1)} s`);
    expect(took, `${name}: at least one input is counted`).toBeGreaterThan(0);
    expect(took, `${name} takes at most ${atMost} inputs: ${because}`).toBeLessThanOrEqual(atMost);
    return result;
  };
  afterAll(() => console.info(told.join('\n')));
  return { watch, task };
}
