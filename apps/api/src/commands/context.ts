// What every command is given.
import type { Config } from '../config.ts';

export type Context = {
  config: Config;
  /** Folder of the installation. */ root: string;
  version: string;
  /** Settled when the web app is built, where that happens beside the start. */ webApp?: Promise<unknown>;
  /** Tells whoever started the command. */ say: (line: string) => void;
};
