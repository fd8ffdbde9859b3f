/** Serves the page to a browser until it is told to stop. Entry of the bundle that `npm start` runs where no desktop shell is to be had. */
import { spawn } from 'node:child_process';
import { mkdir, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { serveLoopback } from './loopback/index.ts';

/** The user's own data, where each system wants it. */
export function dataFolder(platform: string = process.platform, environment: NodeJS.ProcessEnv = process.env): string {
  if (environment.HANDSCLEAR_DATA) return path.resolve(environment.HANDSCLEAR_DATA);
  if (platform === 'win32') return path.join(environment.LOCALAPPDATA ?? os.homedir(), 'Handsclear');
  if (platform === 'darwin') return path.join(os.homedir(), 'Library', 'Application Support', 'Handsclear');
  return path.join(environment.XDG_STATE_HOME ?? path.join(os.homedir(), '.local', 'state'), 'handsclear');
}

export async function start(input: { readonly page: string; readonly sample: string; readonly open?: string }): Promise<void> {
  const { page, sample, open } = input;
  const data = dataFolder();
  const opening = open === undefined ? undefined : { folder: open };
  const loopback = await serveLoopback(page, { data, sample, home: os.homedir(), openFor: () => opening });
  let ending = false;
  const end = (): void => {
    if (ending) return;
    ending = true;
    void loopback.close().then(() => process.exit(0));
  };
  process.on('SIGINT', end);
  process.on('SIGTERM', end);
  console.log(
    `Handsclear is open at\n  ${loopback.address}\nThe address works once, in one browser of this machine. Ctrl-C ends it; what is not saved is kept and offered again.`,
  );
  if (!process.env.HANDSCLEAR_NO_BROWSER) openBrowser(await forBrowser(loopback.address, data));
}

/**
 * Command lines are open to every user of a machine. Linux tells whose program asks with the address, Windows shows nobody the command
 * lines of others; elsewhere the browser is given a file that only this user can read, and that leads to the address.
 */
export async function forBrowser(address: string, data: string, platform: string = process.platform): Promise<string> {
  if (platform === 'linux' || platform === 'win32') return address;
  await mkdir(data, { recursive: true, mode: 0o700 });
  const file = path.join(data, 'open.html');
  await rm(file, { force: true });
  const text = `<!doctype html><meta charset="utf-8"><meta http-equiv="refresh" content="0;url=${address}"><title>Handsclear</title>\n`;
  await writeFile(file, text, { mode: 0o600 });
  return pathToFileURL(file).href;
}

function openBrowser(address: string): void {
  const [command, words] =
    process.platform === 'win32'
      ? (['rundll32', ['url.dll,FileProtocolHandler', address]] as const)
      : process.platform === 'darwin'
        ? (['open', [address]] as const)
        : (['xdg-open', [address]] as const);
  const child = spawn(command, words, { stdio: 'ignore', detached: true });
  // Where no browser is known the address on the screen is all there is.
  child.on('error', () => undefined);
  child.unref();
}
