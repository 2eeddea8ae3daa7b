// A drawn signature as a picture that the page draws from its strokes.
import { FIELD, pathOf, readStrokes } from '@backsight/domain/shared/strokes';
import { html, type Html } from './html.ts';

/** Nothing where the strokes cannot be read. */
export function drawing(strokes: string, name: string): Html | null {
  const drawn = readStrokes(strokes);
  if (!drawn.ok) return null;
  return html`<svg class="drawn" viewBox="0 0 ${FIELD.width} ${FIELD.height}" role="img" aria-label="Drawn signature of ${name}">
    <path d="${pathOf(drawn.value)}" fill="none" stroke="currentColor" stroke-width="3" stroke-linecap="round" stroke-linejoin="round" />
  </svg>`;
}
