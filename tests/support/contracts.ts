// Every route of the contract, found by walking its files, so that no harness can forget one.
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { workbookOf } from '@backsight/contract/liability/tables';
import type { Route } from '@backsight/contract/route';

const root = path.resolve(import.meta.dirname, '../../packages/contract/src');

function filesBelow(folder: string): string[] {
  return fs.readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const full = path.join(folder, entry.name);
    return entry.isDirectory() ? filesBelow(full) : entry.name.endsWith('.ts') ? [full] : [];
  });
}

/** All routes that any exported `...Routes` object names, in the order of their files, and the workbooks that stand beside the tables of liabilities. */
export async function allRoutes(): Promise<Route[]> {
  const routes: Route[] = [];
  for (const file of filesBelow(root).sort()) {
    const module = (await import(/* @vite-ignore */ pathToFileURL(file).href)) as Record<string, unknown>;
    for (const [name, value] of Object.entries(module))
      if (/[a-z]Routes$/.test(name)) routes.push(...Object.values(value as Record<string, Route>));
  }
  const isTable = ({ path }: Route) => path.startsWith('/api/liability/') && path.endsWith('.csv');
  return [...routes, ...routes.filter(isTable).map(workbookOf)];
}

/** A route as tests name it: method and path. */
export const nameOf = (route: Pick<Route, 'method' | 'path'>): string => `${route.method} ${route.path}`;
