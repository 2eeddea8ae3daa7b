// The process that makes the demo firm and loads its past: started when there is something to make, ended with its last answer.
import { fork, type ChildProcess } from 'node:child_process';
import path from 'node:path';
import type { Order, Report } from '../../../../prisma/seed/demo/maker.ts';

export type DemoProcess = {
  /** Answers when the order is done. @throws Error when it fails, or the process ends before */
  ask: (order: Order) => Promise<number | boolean>;
  /** Ends it, whatever it is doing: each of its writes is whole or not at all. */
  end: () => Promise<void>;
};

/** Much is made and thrown away at once: with more room for it, it is looked through less often. */
const ROOM = '--max-semi-space-size=64';

/** Starts the process. `root`: folder of the installation; `told` hears the percents of the past. */
export function demoProcess(root: string, told: (percent: number) => void = () => {}): DemoProcess {
  const file = path.join(root, 'apps/api/dist/demo-maker.js');
  const child = fork(file, [], { execArgv: [ROOM], stdio: ['ignore', 'inherit', 'inherit', 'ipc'] });
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()).once('error', () => resolve()));
  return {
    ask: (order) => asked(child, order, told),
    end: async () => {
      if (child.connected) child.disconnect();
      child.kill('SIGKILL');
      await ended;
    },
  };
}

function asked(child: ChildProcess, order: Order, told: (percent: number) => void): Promise<number | boolean> {
  return new Promise((resolve, reject) => {
    const gone = (): void => reject(new Error('the process that makes the demo firm has ended'));
    const heard = (report: Report): void => {
      if ('percent' in report) return told(report.percent);
      child.off('message', heard).off('exit', gone);
      if ('done' in report) resolve(report.done);
      else reject(new Error(report.failed));
    };
    if (!child.connected) return gone();
    child.on('message', heard).once('exit', gone);
    child.send(order, (error) => error && gone());
  });
}
