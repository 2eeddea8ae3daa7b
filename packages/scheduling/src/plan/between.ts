// What a pair must bring between them on a route: somebody who may go first, and every qualification needed. Whoever lacks a
// part must go with somebody who has it, so that far fewer pairs are worth a look than the two cheapest people suggest.
import type { Space } from './columns.ts';

/** Parts looked at besides going first; further qualifications are left to the last check of a pair. */
const MOST_NEEDS = 3;
const GOES_FIRST = 1;

export class Between {
  /** Parts, as bits, that a pair on the route at hand needs. */
  whole = 0;
  private readonly space: Space;
  private readonly needs = new Int32Array(MOST_NEEDS);
  private count = 0;
  /** Least value of those who have at least these parts. */
  private readonly least = new Float64Array(1 << (MOST_NEEDS + 1));

  constructor(space: Space) {
    this.space = space;
  }

  begin(route: number): void {
    const { tables, routes } = this.space;
    this.count = 0;
    for (let left = routes.needs[route]!; left !== 0 && this.count < MOST_NEEDS; left &= left - 1) this.needs[this.count++] = left & -left;
    const began = tables.visits[routes.visits[routes.first[route]!]!]!.underWay;
    this.whole = began ? 0 : (2 << this.count) - 1;
    this.least.fill(Infinity, 0, this.whole + 1);
  }

  /** Parts that the member has. */
  partsOf(member: number): number {
    const { leads, holds } = this.space.tables;
    let parts = leads[member] === 1 ? GOES_FIRST : 0;
    for (let at = 0; at < this.count; at++) if ((holds[member]! & this.needs[at]!) !== 0) parts |= 2 << at;
    return parts & this.whole;
  }

  add(parts: number, value: number): void {
    if (value < this.least[parts]!) this.least[parts] = value;
  }

  /** After the last one was added: a value that no pair is below. */
  bound(): number {
    const { least, whole } = this;
    for (let part = 1; part <= whole; part <<= 1) {
      for (let parts = 0; parts <= whole; parts++) if ((parts & part) === 0) least[parts] = Math.min(least[parts]!, least[parts | part]!);
    }
    let bound = Infinity;
    for (let parts = 0; parts <= whole; parts++) bound = Math.min(bound, least[parts]! + least[whole ^ parts]!);
    return bound;
  }

  /** The least value of anybody who completes these parts. */
  partner(parts: number): number {
    return this.least[this.whole & ~parts]!;
  }
}
