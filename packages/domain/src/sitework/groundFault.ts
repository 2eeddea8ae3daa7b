// How fast a ground-fault circuit interrupter must open, so that a measured trip time can be judged.

/**
 * Longest time in seconds that a Class A device may take to open at a fault current of 6 to 264 mA (milliamperes):
 * T = (20 / I)^1.43, UL 943. The often quoted 25 ms is the 264 mA end only; the current of a field tester, 6 to 9 mA,
 * allows seconds. Null outside that range: below 6 mA the device need not trip at all.
 */
export function maxTripSeconds(milliamperes: number): number | null {
  if (!(milliamperes >= 6 && milliamperes <= 264)) return null;
  return (20 / milliamperes) ** 1.43;
}
