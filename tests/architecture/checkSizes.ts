// Sizes: a file, a function and a React component each fit on a reader's screen. Files of data are exempt.
import { functionsOf } from './functions.ts';
import type { ParsedFile } from './read.ts';

export const LIMITS = { file: 300, function: 60, component: 120 };

const DATA = [/^prisma\/seed\//, /^tests\/published\/data\//, /^packages\/domain\/src\/[^/]+\/data\//, /(^|\/)generated\//];

/** Lines of a text; the newline at its very end starts no line of its own. */
const lineCount = (text: string): number => text.replace(/\n$/, '').split('\n').length;

const tooLong = (file: ParsedFile): string[] => {
  const lines = lineCount(file.text);
  const whole = lines > LIMITS.file ? [`${file.path}:1 has ${lines} lines. Rule: a file has at most ${LIMITS.file} lines.`] : [];
  const parts = functionsOf(file).flatMap(({ name, line, lines: length, component }) => {
    const [kind, limit] = component ? (['React component', LIMITS.component] as const) : (['function', LIMITS.function] as const);
    return length > limit ? [`${file.path}:${line} ${name} has ${length} lines. Rule: a ${kind} has at most ${limit} lines.`] : [];
  });
  return [...whole, ...parts];
};

/** One message for each file, function or component over its limit. */
export const checkSizes = (files: readonly ParsedFile[]): string[] =>
  files.filter((file) => !DATA.some((data) => data.test(file.path))).flatMap(tooLong);
