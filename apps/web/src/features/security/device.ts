// What a browser says that it is (the User-Agent field, RFC 9110, 10.1.5), in words that one knows one's devices by.

const SYSTEMS: readonly [RegExp, string][] = [
  [/iPhone|iPod/, 'iPhone'],
  [/iPad/, 'iPad'],
  [/Android/, 'Android'],
  [/Windows/, 'Windows'],
  [/Mac OS X|Macintosh/, 'Mac'],
  [/CrOS/, 'Chromebook'],
  [/Linux/, 'Linux'],
];
/** In this order: most name others besides themselves. */
const BROWSERS: readonly [RegExp, string][] = [
  [/Edg(e|A|iOS)?\//, 'Edge'],
  [/OPR\//, 'Opera'],
  [/Firefox\/|FxiOS\//, 'Firefox'],
  [/Chrome\/|CriOS\//, 'Chrome'],
  [/Safari\//, 'Safari'],
];

const named = (list: typeof SYSTEMS, agent: string): string | undefined => list.find(([pattern]) => pattern.test(agent))?.[1];

/** For example "Chrome on Android"; what it says itself where that is none of these. */
export function deviceOf(agent: string): string {
  const [browser, system] = [named(BROWSERS, agent), named(SYSTEMS, agent)];
  if (browser && system) return `${browser} on ${system}`;
  return browser ?? system ?? (agent === '' ? 'a program without a name' : agent.slice(0, 60));
}
