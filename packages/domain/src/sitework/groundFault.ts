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

/**
 * Since when the National Electrical Code calls for protection, by place; year 1971 to 1973 for outdoors stands as 1973. From memory (cycle history);
 * the code that applied where and when the house was built may differ.
 */
export const PROTECTED_SINCE: readonly { place: string; year: number }[] = [
  { place: 'outdoors', year: 1973 },
  { place: 'bathrooms', year: 1975 },
  { place: 'garage', year: 1978 },
  { place: 'kitchen counters near the sink, unfinished basement, boathouse', year: 1987 },
  { place: 'crawl space', year: 1990 },
  { place: 'wet bar', year: 1993 },
  { place: 'all kitchen counters', year: 1996 },
  { place: 'laundry and utility sinks', year: 2005 },
  { place: 'laundry areas', year: 2014 },
];
