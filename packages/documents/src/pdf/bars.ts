// Bars side by side with their values above them: a figure that is looked at; its words are for those who listen to it.
import type { Bars } from './content.ts';
import { settable } from './fonts.ts';
import { GRAY, measureAt, setLine, type Sheet } from './sheet.ts';

const SIZE = 8;
const HEIGHT = 110;
/** Room above the highest bar and below the line, in points. */
const [ABOVE, BELOW] = [14, 14];
export const barsHeight = HEIGHT + ABOVE + BELOW;

/** Draws into the width given with its top at the pen. What stands above a bar's known part is drawn as an outline. */
export function drawBars(sheet: Sheet, { bars }: Bars, width: number): void {
  const most = Math.max(1e-9, ...bars.map(({ value, more = 0 }) => value + more));
  const slot = width / Math.max(1, bars.length);
  const base = sheet.y + ABOVE + HEIGHT;
  const measure = measureAt(SIZE);
  const word = (text: string, x: number, y: number, color: string) => {
    const fit = settable(text);
    if (measure(fit, 'regular') > slot + 8) return;
    setLine(sheet, [{ text: fit, face: 'regular' }], { x: x - measure(fit, 'regular') / 2, y, width: slot }, { size: SIZE, color });
  };
  bars.forEach(({ label, value, more = 0, says }, at) => {
    const left = sheet.left + at * slot + slot * 0.2;
    const [high, higher] = [(Math.max(0, value) / most) * HEIGHT, (more / most) * HEIGHT];
    const { doc } = sheet;
    doc
      .rect(left, base - high, slot * 0.6, high)
      .fillColor('#3d5a68')
      .fill();
    if (higher > 0)
      doc
        .rect(left, base - high - higher, slot * 0.6, higher)
        .lineWidth(0.8)
        .strokeColor('#3d5a68')
        .stroke();
    word(says, left + slot * 0.3, base - high - higher - 11, '#111111');
    word(label, left + slot * 0.3, base + 3, GRAY);
  });
  sheet.doc
    .moveTo(sheet.left, base)
    .lineTo(sheet.left + width, base)
    .lineWidth(0.5)
    .strokeColor('#999999')
    .stroke();
}
