// The columns nearest to the relaxation, by reduced cost. Taken in the order in which they are found, they would be the wrong
// ones, and the gap would look larger than it is.
import type { Priced } from './pricing.ts';
import type { Relaxation } from './relax.ts';

const WIDER = 2.2;
/** Listing stops here: a limit this wide will not be proven anyway. */
const MOST_LISTED = 400_000;

export type Listed = { columns: Priced[]; /** Every column with a reduced cost below it is among them. */ below: number; whole: boolean };

/** The `most` columns of least reduced cost below `limit`: truly the least, not the first found. */
export function cheapestColumns(relaxation: Pick<Relaxation, 'solution' | 'cuts' | 'pricing'>, limit: number, most: number): Listed {
  const { solution, cuts, pricing } = relaxation;
  let below = Math.min(limit, Math.max(0.5, 0.0005 * Math.abs(solution.cost)));
  for (;;) {
    const found: Priced[] = [];
    let count = 0;
    const emit = (one: Priced) => {
      if (count++ < MOST_LISTED) found.push(one);
    };
    pricing.run({ duals: solution.duals, cuts, limit: below, perRoute: Infinity, step: 1, offset: 0, emit });
    const all = below >= limit;
    if (all || count >= most) {
      found.sort((a, b) => a.reduced - b.reduced || a.route - b.route || a.first - b.first || a.second - b.second);
      const whole = all && count <= most;
      const columns = found.slice(0, most);
      return { columns, whole, below: whole ? limit : count > MOST_LISTED ? 0 : columns.at(-1)!.reduced };
    }
    below = Math.min(limit, below * WIDER);
  }
}
