// Every route of the contract, found by walking its files, so that no harness can forget one.
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Route } from '@backsight/contract/route';
import { workbookOf, type PageWithTables } from '@backsight/contract/table';

const root = path.resolve(import.meta.dirname, '../../packages/contract/src');

function filesBelow(folder: string): string[] {
  return fs.readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const full = path.join(folder, entry.name);
    return entry.isDirectory() ? filesBelow(full) : entry.name.endsWith('.ts') ? [full] : [];
  });
}

/** Every exported value of the contract, with its name. */
async function exported(): Promise<[string, unknown][]> {
  const found: [string, unknown][] = [];
  for (const file of filesBelow(root).sort())
    found.push(...Object.entries((await import(/* @vite-ignore */ pathToFileURL(file).href)) as Record<string, unknown>));
  return found;
}

/** Every page whose tables can be taken away. */
export const allPagesWithTables = async (): Promise<PageWithTables[]> =>
  (await exported())
    .filter(([name]) => /[a-z]Tables$/.test(name))
    .flatMap(([, value]) => Object.values(value as Record<string, PageWithTables>));

/** All routes that any exported `...Routes` object names, in the order of their files, those of the tables of pages (`...Tables`), and the workbooks that stand beside the tables of liabilities. */
export async function allRoutes(): Promise<Route[]> {
  const named = (await exported()).filter(([name]) => /[a-z]Routes$/.test(name));
  const routes = [
    ...named.flatMap(([, value]) => Object.values(value as Record<string, Route>)),
    ...(await allPagesWithTables()).map(({ table }) => table),
  ];
  const isTable = ({ path }: Route) => path.startsWith('/api/liability/') && path.endsWith('.csv');
  return [...routes, ...routes.filter(isTable).map(workbookOf)];
}

/** A route as tests name it: method and path. */
export const nameOf = (route: Pick<Route, 'method' | 'path'>): string => `${route.method} ${route.path}`;
