// Use cases never call each other: a file of an area that knows the runner is one; what several share lives in steps/, or knows no runner.
import type { ParsedFile } from './read.ts';

const IN_AREA = /^packages\/usecases\/src\/[^/]+\//;
const STEP = /^packages\/usecases\/src\/[^/]+\/steps\//;
const RUNNER = 'packages/usecases/src/run.ts';

const isUseCase = (file: ParsedFile | undefined): boolean =>
  file !== undefined && IN_AREA.test(file.path) && !STEP.test(file.path) && file.imports.some((one) => one.target === RUNNER);

/** One message for each import of a use case by another file of the use cases; types are free. */
export const checkUseCases = (files: readonly ParsedFile[]): string[] => {
  const byPath = new Map(files.map((file) => [file.path, file]));
  return files
    .filter((file) => IN_AREA.test(file.path))
    .flatMap((file) =>
      file.imports
        .filter((one) => (one.kind === 'value' || one.kind === 'dynamic') && isUseCase(byPath.get(one.target)))
        .map(
          (one) =>
            `${file.path}:${one.line} imports the use case ${one.specifier}. Rule: a use case never calls another; what both need is a function in steps/ that takes the transaction.`,
        ),
    );
};
