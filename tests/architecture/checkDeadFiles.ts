// Dead files: everything under apps and packages is reached from an entry of the program, from a script or from a test.
import type { ParsedFile } from './read.ts';

/** Where the program, its tools and its tests begin. Ambient types (.d.ts) and files served as they are cannot be imported. */
const ENTRIES = [
  /^apps\/api\/src\/main\.ts$/,
  /^apps\/api\/src\/jobs\/planner-worker\.ts$/,
  /^apps\/web\/src\/main\.tsx$/,
  /^apps\/api\/scripts\//,
  /^apps\/web\/public\//,
  /^(apps|packages)\/[^/]+\/[^/]+\.config\.[a-z]+$/,
  /^prisma\//,
  /^tests\//,
  /\.d\.ts$/,
];

/** One message for each file that no entry reaches. */
export const checkDeadFiles = (files: readonly ParsedFile[]): string[] => {
  const byPath = new Map(files.map((file) => [file.path, file]));
  const waiting = files.filter((file) => ENTRIES.some((entry) => entry.test(file.path)));
  const reached = new Set(waiting.map((file) => file.path));
  for (let file = waiting.pop(); file; file = waiting.pop()) {
    for (const { target } of file.imports) {
      const next = byPath.get(target);
      if (!next || reached.has(target)) continue;
      reached.add(target);
      waiting.push(next);
    }
  }
  return files
    .filter((file) => !reached.has(file.path))
    .map((file) => `${file.path}:1 is reached by nothing. Rule: every file is used by an entry of the program, a script or a test.`);
};
