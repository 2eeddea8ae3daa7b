// Runs one command of the built service, inside a container: nothing is installed or built here.
import { main } from '../dist/main.js';
import path from 'node:path';

await main(process.argv[2] ?? 'serve', path.resolve(import.meta.dirname, '../../..'), process.argv.slice(3));
