// Numbers and fingerprints are set letter by letter: that is right only while the font moves none of these letters for its neighbour.
import { describe, expect, it } from 'vitest';
import { fontOf, laidOut, textWidth } from '@backsight/documents/pdf/fonts';

const LETTERS = '0123456789abcdef.,:$%#/-'.split('');
const FACES = ['regular', 'bold', 'italic'] as const;

describe('a word set from what is remembered', () => {
  it.each(FACES)('has the glyphs and the width that the font gives it, %s', (face) => {
    const font = fontOf(face);
    const words = [...LETTERS.flatMap((one) => LETTERS.map((other) => one + other)), 'ff.,f', '$1,234.50', '00fff1f,', 'AVAtar', 'office'];
    const wrong = words.filter((word) => {
      const [laid, whole] = [laidOut(word, face), font.layout(word)];
      const same = laid.glyphs.map(({ id }) => id).join(' ') === whole.glyphs.map(({ id }) => id).join(' ');
      return !same || Math.abs(laid.width - (whole.advanceWidth * 1000) / font.unitsPerEm) > 1e-6;
    });
    expect(wrong).toEqual([]);
  });
  it('is as wide as its words and blanks', () => {
    expect(textWidth('12 Alder  Street', 'bold', 10)).toBeCloseTo(
      ['12', 'Alder', 'Street'].reduce((sum, word) => sum + textWidth(word, 'bold', 10), 3 * textWidth(' ', 'bold', 10)),
      9,
    );
  });
});
