/** The host as a process of its own, as `npm start` runs it for a browser: for tests that kill it, and for measuring a start. */
import { type ChildProcess, spawn } from 'node:child_process';
import { pathToFileURL } from 'node:url';
import { page as built, host, root } from '../../cli/setup.mjs';

export interface Running {
  readonly child: ChildProcess;
  readonly address: string;
}

/** Answered when it has told its address. The app must have been built; whoever starts it ends it. */
export function startHost(library: string, data: string): Promise<Running> {
  const input = JSON.stringify({ page: built, sample: library, open: library });
  const program = `const { start } = await import(${JSON.stringify(pathToFileURL(host).href)}); await start(${input});`;
  const env = { ...process.env, HANDSCLEAR_DATA: data, HANDSCLEAR_NO_BROWSER: '1' };
  const child = spawn(process.execPath, ['--input-type=module', '--eval', program], {
    env,
    stdio: ['ignore', 'pipe', 'inherit'],
    cwd: root,
  });
  let said = '';
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('exit', (code) => reject(new Error(`The host ended with ${code}: ${said}`)));
    child.stdout?.on('data', (part) => {
      said += part;
      const address = /http:\S+/.exec(said)?.[0];
      if (address !== undefined) resolve({ child, address });
    });
  });
}
