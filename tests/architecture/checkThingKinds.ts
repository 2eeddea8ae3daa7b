// The kinds of things in the audit trail are spelled in one way, so that a search by kind misses nothing.
import type { SourceFile } from './read.ts';

const KIND = /\bdid\('([^']*)'|\bthingKind: '([^']*)'/g;
const KEBAB = /^[a-z]+(-[a-z]+)*$/;

/** One message for each kind that is not lower-case words joined by hyphens. */
export const checkThingKinds = (files: readonly SourceFile[]): string[] =>
  files
    .filter(({ path }) => path.startsWith('packages/usecases/src/'))
    .flatMap(({ path, text }) =>
      [...text.matchAll(KIND)]
        .map((found) => ({ kind: found[1] ?? found[2] ?? '', line: text.slice(0, found.index).split('\n').length }))
        .filter(({ kind }) => !KEBAB.test(kind))
        .map(
          ({ kind, line }) => `${path}:${line} files an act under '${kind}'. Rule: kinds of things are lower-case words joined by hyphens.`,
        ),
    );
