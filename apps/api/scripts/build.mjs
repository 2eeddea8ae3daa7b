// Generates and builds everything, for an image: no start follows.
import { ensureBuilt, ensureGenerated } from './lib.mjs';

ensureGenerated();
ensureBuilt();
