// Floors: each import of a file is one that the table of floors allows, and is spelled as the house spells it.
import { type Floor, FLOORS } from './floors.ts';
import type { Import, ParsedFile } from './read.ts';

/** `*` one name, `/**` anything below, `!name` any one name but that; a package stands for everything below it too. */
const patternToRegExp = (pattern: string): RegExp => {
  const body = pattern.replace(/!([^/]+)|\/?\*\*|\*|[.+?^()[\]{}|\\$]/g, (part, other?: string) => {
    if (other !== undefined) return `(?!${other}(?:/|\\.[a-z]+$))[^/]+`;
    return { '/**': '(?:/.*)?', '**': '.*', '*': '[^/]*' }[part] ?? `\\${part}`;
  });
  const inRepository = /^(apps|packages|prisma|tests)\//.test(pattern);
  return new RegExp(`^${body}${inRepository ? '' : '(?:/.*)?'}$`);
};

const compiled = new Map<string, RegExp>();

const fits = (target: string, patterns: readonly string[] = [], caught: readonly string[]): boolean =>
  patterns.some((pattern) => {
    const filled = pattern.replace(/\$(\d)/g, (_, index: string) => caught[Number(index)] ?? '');
    const expression = compiled.get(filled) ?? patternToRegExp(filled);
    compiled.set(filled, expression);
    return expression.test(target);
  });

const allowed = (floor: Floor, caught: readonly string[], { target, kind }: Import): boolean =>
  !fits(target, floor.never, caught) && (fits(target, floor.may, caught) || (kind === 'type' && fits(target, floor.types, caught)));

const packageOf = (path: string): string => path.split('/').slice(0, 2).join('/');

/** Inside a package the path is relative; from one package to another it goes by the package's name. What is in no package, such as a seed, has only its path. */
const spelledWrong = (path: string, { specifier, target }: Import): boolean => {
  const same = packageOf(path) === packageOf(target);
  return specifier.startsWith('.') ? !same && /^(apps|packages)\//.test(target) : same && specifier.startsWith('@backsight/');
};

const inFile = (file: ParsedFile): string[] => {
  const floor = FLOORS.find((candidate) => candidate.files.test(file.path));
  if (!floor) return [`${file.path}:1 lies on no floor. Rule: every file has its place in the table of floors.`];
  const caught = floor.files.exec(file.path) ?? [];
  const imports = file.imports.filter((one) => one.kind !== 'file');
  const refused = imports
    .filter((one) => !allowed(floor, caught, one))
    .map((one) => {
      const hint = allowed(floor, caught, { ...one, kind: 'type' }) ? ' (`import type` would be allowed)' : '';
      return `${file.path}:${one.line} imports ${one.specifier}${hint}. Rule: ${floor.rule}.`;
    });
  const spelled = /^(apps|packages)\/[^/]+\/src\//.test(file.path) ? imports.filter((one) => spelledWrong(file.path, one)) : [];
  return [
    ...refused,
    ...spelled.map(
      (one) =>
        `${file.path}:${one.line} imports ${one.specifier}. Rule: relative paths inside a package, '@backsight/...' from one package to another.`,
    ),
  ];
};

/** One message for each import that its floor does not allow, and for each file that cannot be parsed or has no floor. */
export const checkFloors = (files: readonly ParsedFile[]): string[] => files.flatMap((file) => [...file.errors, ...inFile(file)]);
