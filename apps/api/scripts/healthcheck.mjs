// Asks the service of this container whether it is well. It loads nothing else, so that it answers on a busy machine too.
const host = ['0.0.0.0', '::', undefined].includes(process.env.HOST) ? '127.0.0.1' : process.env.HOST;
const reply = await fetch(`http://${host}:${process.env.PORT ?? 4800}/api/health`, { signal: AbortSignal.timeout(8000) });
console.log(await reply.text());
process.exitCode = reply.ok ? 0 : 1;
