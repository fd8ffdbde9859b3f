/**
 * Whose program stands at the other end of a loopback connection, where the system tells. Command lines are open to every user of a
 * machine, so the address that a browser is started with could be read there and used first by another user.
 */
import { readFile } from 'node:fs/promises';

export interface Ends {
  /** Port of the one who asks. */
  readonly remote: number;
  /** Port of this service. */
  readonly local: number;
}

/** The user's number from the kernel's table of connections; undefined: the table does not say. Format: proc_pid_net(5). */
export function ownerIn(table: string, { remote, local }: Ends): number | undefined {
  const port = (end: string | undefined): number => Number.parseInt(end?.split(':').at(-1) ?? '', 16);
  for (const line of table.split('\n').slice(1)) {
    const words = line.trim().split(/\s+/);
    if (port(words[1]) === remote && port(words[2]) === local) return Number(words[7]);
  }
  return undefined;
}

/** False only where the system says that it is somebody else; not every system says. */
export async function mayBeOwn(ends: Ends, own = process.getuid?.() ?? null, read = readTable): Promise<boolean> {
  if (own === null) return true;
  for (const name of ['tcp', 'tcp6']) {
    const owner = ownerIn(await read(name), ends);
    if (owner !== undefined) return owner === own;
  }
  return true;
}

const readTable = (name: string): Promise<string> => readFile(`/proc/net/${name}`, 'utf8').catch(() => '');
