// npm start: makes what is missing, then serves, or runs the command that is named.
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { checkNode, ensureBuilt, ensureGenerated, ensurePackages, root } from './lib.mjs';

checkNode();
ensurePackages();
ensureGenerated();
ensureBuilt();
const { main } = await import(pathToFileURL(path.join(root, 'apps/api/dist/main.js')).href);
await main(process.argv[2] ?? 'serve', root, process.argv.slice(3));
