// What every command is given.
import type { Config } from '../config.ts';

export type Context = {
  config: Config;
  /** Folder of the installation. */ root: string;
  version: string;
  /** Tells whoever started the command. */ say: (line: string) => void;
};
