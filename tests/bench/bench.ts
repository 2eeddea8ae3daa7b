// What a bench is: a file tests/bench/<name>.bench.ts whose default export is one of these. The runner finds it by itself.

/** One line of the table; columns appear in the order of the first row. */
export type Row = Record<string, string | number | null>;

export type Bench = {
  /** In one line: what is measured, and in which unit. */
  about: string;
  /** Calls `say` with each row as soon as it is measured. `named`: asked for by name, so that it may take long to prepare. */
  run: (say: (row: Row) => void, named: boolean) => Promise<void> | void;
};

/** Whether all are measured together, which is to end within a quarter of an hour: each then looks less often. */
export const TOGETHER = process.argv.length === 2;

/** The value below which that share of the numbers lies, 0.5 for the median. */
export function quantile(numbers: readonly number[], share: number): number {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
}

/** Median, 90 % and largest of some numbers, rounded: what a table shows of a spread. */
export const spread = (numbers: readonly number[]): string =>
  [quantile(numbers, 0.5), quantile(numbers, 0.9), Math.max(...numbers)].map((one) => one.toFixed(0)).join(' / ');

/** Wall and processor milliseconds of an act: the second says what it costs on a machine that does other things too. */
export async function timed<T>(act: () => Promise<T>): Promise<{ value: T; wall: number; cpu: number }> {
  const [began, used] = [performance.now(), process.cpuUsage()];
  const value = await act();
  const { user, system } = process.cpuUsage(used);
  return { value, wall: performance.now() - began, cpu: (user + system) / 1000 };
}

/** Says whether so many seconds of processor time are used up: a limit that does not depend on what else the machine does. */
export function cpuLimit(seconds: number): () => boolean {
  const began = process.cpuUsage();
  return () => {
    const { user, system } = process.cpuUsage(began);
    return user + system > seconds * 1e6;
  };
}
