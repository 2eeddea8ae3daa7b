// Whether the service can listen where it is told to, asked before anything is begun.
import net from 'node:net';
import { WrongSetting, type Config } from '../config.ts';

/** @throws WrongSetting where something listens there already */
export function portIsFree({ host, port }: Config): Promise<void> {
  return new Promise((resolve, reject) => {
    const probe = net.createServer();
    probe.once('error', (error: NodeJS.ErrnoException) =>
      reject(
        error.code === 'EADDRINUSE'
          ? new WrongSetting(
              `Port ${port} is already in use. If Backsight runs there, open it in the browser; else set PORT to another number.`,
            )
          : error,
      ),
    );
    probe.listen(port, host, () => probe.close(() => resolve()));
  });
}
