// Keys made from titles.

/** 'Bath fan duct: both ends' -> 'bath-fan-duct-both-ends'; a number is added while the key is taken. */
export function keyFor(title: string, taken: readonly string[]): string {
  const slug =
    title
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^[^a-z]+|(?<!-)-+$/g, '')
      .slice(0, 70)
      .replace(/(?<!-)-+$/, '') || 'step';
  let key = slug;
  for (let n = 2; taken.includes(key); n += 1) key = `${slug}-${n}`;
  return key;
}
