// What runs in a process of its own under load: the service, or the bare limit that it is held against. It hears its order from the
// bench that forked it, says where it listens, and how much processor time it has used.
import fs from 'node:fs';
import { bareOver } from './bare.ts';
import { apiOver } from './parts.ts';

/** `recorded`: file of what the bare limit runs for each address; none: it is the service. */
export type Order = { url: string; recorded: string | null } & Parameters<typeof apiOver>[1];
/** Processor milliseconds since the start, and bytes of memory. */
export type Used = { cpu: number; rss: number };

const used = (): Used => {
  const { user, system } = process.cpuUsage();
  return { cpu: (user + system) / 1000, rss: process.memoryUsage.rss() };
};

async function obey({ url, recorded, ...order }: Order): Promise<void> {
  const { app } = recorded
    ? bareOver(url, { ...order, recorded: JSON.parse(fs.readFileSync(recorded, 'utf8')) })
    : await apiOver(url, order);
  await app.listen({ host: '127.0.0.1', port: 0 });
  const address = app.server.address();
  process.send!({ port: typeof address === 'object' ? address?.port : null });
}

process.once('message', (order: Order) => {
  process.on('message', () => process.send!(used()));
  void obey(order);
});
process.on('disconnect', () => process.exit(0));
