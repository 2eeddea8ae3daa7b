// Draws a signature with the pointer on the page's canvas.
import type { Page } from 'playwright-core';

const STROKE = [
  [0.2, 0.2],
  [0.35, 0.8],
  [0.5, 0.3],
  [0.7, 0.7],
] as const;

export async function drawOn(page: Page): Promise<void> {
  const canvas = page.locator('canvas');
  await canvas.scrollIntoViewIfNeeded();
  const box = (await canvas.boundingBox())!;
  const at = (x: number, y: number): [number, number] => [box.x + box.width * x, box.y + box.height * y];
  await page.mouse.move(...at(0.1, 0.5));
  await page.mouse.down();
  for (const [x, y] of STROKE) await page.mouse.move(...at(x, y));
  await page.mouse.up();
}
