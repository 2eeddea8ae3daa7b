// npm start: makes what is missing, then serves, or runs the command that is named.
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { checkNode, ensureGenerated, ensurePackages, ensureServiceBuilt, root, webBuilding } from './lib.mjs';

const command = process.argv[2] ?? 'serve';
checkNode();
ensurePackages();
const webApp = command === 'serve' ? webBuilding() : Promise.resolve(); // beside what comes next, which takes one core and longer
webApp.catch(() => {}); // heard by who serves it
ensureGenerated();
ensureServiceBuilt();
const { main } = await import(pathToFileURL(path.join(root, 'apps/api/dist/main.js')).href);
await main(command, root, process.argv.slice(3), webApp);
