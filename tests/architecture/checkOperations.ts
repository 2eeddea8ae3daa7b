// Every operation that may leave a line in the audit trail has words there.
import { hasWords } from '../../packages/usecases/src/audit/operationWords.ts';
import type { SourceFile } from './read.ts';

const OPERATION = /\boperation: '([^']*)'/g;

/** One message for each operation of the use cases, and of the set-up, that the trail would show by its code word. */
export const checkOperations = (files: readonly SourceFile[]): string[] =>
  files
    .filter(({ path }) => /^packages\/usecases\/src\/|^apps\/api\/src\//.test(path))
    .flatMap(({ path, text }) =>
      [...text.matchAll(OPERATION)]
        .map((found) => ({ operation: found[1]!, line: text.slice(0, found.index).split('\n').length }))
        .filter(({ operation }) => !hasWords(operation))
        .map(
          ({ operation, line }) =>
            `${path}:${line} ${operation} has no words in audit/operationWords.ts. Rule: the audit trail speaks words of the trade.`,
        ),
    );
