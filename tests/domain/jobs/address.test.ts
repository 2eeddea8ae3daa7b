// Keys of addresses: the same house is one, other houses stay two. Abbreviations: U.S. Postal Service Publication 28, appendices B and C.
import { describe, expect, it } from 'vitest';
import { addressKey } from '@backsight/domain/jobs/address';

describe('addressKey', () => {
  it.each([
    ['12 North Main Street', '12 N. Main St'],
    ['12 n main st', '12  N  MAIN   ST.'],
    ['7 Third Avenue, Apt. 4', '7 3rd Ave #4'],
    ['7 Third Avenue, Apt #4', '7 3rd ave unit 4'],
    ["3 O'Brien Lane", '3 OBrien Ln'],
    ['9 Café Court', '9 Cafe Ct'],
    ['1 Lake Ridge Parkway', '1 lake rdg pkwy'],
  ])('%s and %s are one', (a, b) => expect(addressKey(a, 'Birchmere')).toBe(addressKey(b, 'birchmere')));
  it.each([
    ['12 Main Street', '12 Main Avenue'],
    ['12 N Main St', '12 S Main St'],
    ['12 Main St', '112 Main St'],
    ['7 3rd Ave #4', '7 3rd Ave #5'],
  ])('%s and %s stay two', (a, b) => expect(addressKey(a, 'Birchmere')).not.toBe(addressKey(b, 'Birchmere')));
  it('keeps towns apart', () => expect(addressKey('1 Main St', 'Port Ansel')).not.toBe(addressKey('1 Main St', 'Birchmere')));
});
