// Import circles: two files that need each other cannot be read, tested or moved alone. Types count too.
import type { ParsedFile } from './read.ts';

type Step = { path: string; line: number };

const describeCircle = (steps: readonly Step[]): string => {
  const [first] = steps;
  const way = [...steps.map((step) => `${step.path}:${step.line}`), first?.path].join(' -> ');
  return `${first?.path}:${first?.line} is part of an import circle: ${way}. Rule: files never import each other in a circle.`;
};

/** One message for each circle that a walk along the imports closes; `line` is that of the import. */
export const checkCircles = (files: readonly ParsedFile[]): string[] => {
  const byPath = new Map(files.map((file) => [file.path, file]));
  const finished = new Set<string>();
  const way: Step[] = [];
  const found = new Map<string, string>();
  const visit = (file: ParsedFile): void => {
    for (const { kind, line, target } of file.imports) {
      const next = byPath.get(target);
      if (!next || kind === 'file') continue;
      way.push({ path: file.path, line });
      const start = way.findIndex((step) => step.path === target);
      const circle = start < 0 ? [] : way.slice(start);
      if (start >= 0) found.set(circle.map((step) => step.path).join(), describeCircle(circle));
      else if (!finished.has(target)) visit(next);
      way.pop();
    }
    finished.add(file.path);
  };
  for (const file of files) if (!finished.has(file.path)) visit(file);
  return [...found.values()];
};
