// What every check against the outside world says about itself.

/** `status` tells how we know the figure: found in the source, from memory (and recomputed), or computed with the tool named. */
export type PublishedCase = { name: string; source: string; status: string };
