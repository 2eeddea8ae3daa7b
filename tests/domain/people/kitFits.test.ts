// Which ladder is long enough, and what is asked of a piece of kit.
import { describe, expect, it } from 'vitest';
import { ladderFeetFor, mayAddPiece } from '@backsight/domain/people/kit';
import { STARTER } from '../../../prisma/seed/starter/starter.ts';

describe('the ladder of a house', () => {
  // 29 CFR 1926.1053(b)(1): side rails at least 3 ft above the landing; (b)(5)(i): a quarter of the working length out at the
  // foot. Ten feet a story, lengths sold and overlaps: common practice. By hand: 3 ft above 10 ft of eave are 13.4 ft of rail.
  it.each([
    [1, 20],
    [2, 28],
    [3, 40],
    [4, null],
  ])('of %i stories is %s ft long at least', (stories, feet) => {
    expect(ladderFeetFor(stories)).toBe(feet);
  });
  it('is the one that the kinds of a new firm name', () => {
    const parts = STARTER.kitKinds.flatMap((kind) => ('ofKind' in kind ? [kind.minFeet] : []));
    expect(parts).toEqual([ladderFeetFor(2), ladderFeetFor(3)]);
  });
});

describe('a piece', () => {
  const plain = { worn: false, ofKind: null };
  it('of what is worn has a size; of other kinds none is asked', () => {
    expect(mayAddPiece({ ...plain, worn: true }, null)).toMatchObject({ ok: false, code: 'kit-size-missing' });
    expect(mayAddPiece({ ...plain, worn: true }, 'M').ok).toBe(true);
    expect(mayAddPiece(plain, null).ok).toBe(true);
  });
  it('of some length is added as what it is', () => {
    expect(mayAddPiece({ ...plain, ofKind: 'ladder' }, null)).toMatchObject({ ok: false, code: 'kit-by-length' });
  });
});
