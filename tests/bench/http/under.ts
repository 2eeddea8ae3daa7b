// A program under load in a process of its own, as the bench sees it.
import { fork } from 'node:child_process';
import type { Order, Used } from './program.ts';

export type Under = { port: number; used: () => Promise<Used>; stop: () => Promise<void> };

/** Forks the bundled program; answers once it listens. `flags` are of node. @throws Error when it ends before */
export function startUnder(program: string, order: Order, flags: readonly string[] = []): Promise<Under> {
  const child = fork(program, { execArgv: ['--enable-source-maps', ...flags], stdio: ['ignore', 'inherit', 'inherit', 'ipc'] });
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const said = <T>(): Promise<T> => new Promise((resolve) => child.once('message', (words) => resolve(words as T)));
  const stop = async (): Promise<void> => {
    if (child.connected) child.disconnect();
    await ended;
  };
  const used = (): Promise<Used> => {
    const answer = said<Used>();
    child.send('used');
    return answer;
  };
  const listening = said<{ port: number }>();
  child.send(order);
  return Promise.race([
    listening.then(({ port }) => ({ port, used, stop })),
    ended.then(() => {
      throw new Error(`the program ended before it listened: ${program}`);
    }),
  ]);
}
