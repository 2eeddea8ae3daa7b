// healthcheck: asks the running service, for containers.
import type { Context } from './context.ts';

export async function healthcheck({ config, say }: Context): Promise<void> {
  const host = config.host === '0.0.0.0' || config.host === '::' ? '127.0.0.1' : config.host;
  const reply = await fetch(`http://${host}:${config.port}/api/health`, { signal: AbortSignal.timeout(4000) });
  say(await reply.text());
  if (!reply.ok) process.exitCode = 1;
}
