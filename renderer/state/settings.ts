/** What the user has set, kept by the host, since a page over the loopback address has another origin each time. Read once before anything is drawn. */
import { SETTINGS, type SettingName, type Settings } from '../../electron/host/contract/index.ts';
import { call } from '../host.ts';

let kept = Object.fromEntries(Object.entries(SETTINGS).map(([name, { standard }]) => [name, standard])) as Settings;

export async function readSettings(): Promise<void> {
  try {
    kept = (await call('settings.read', {})).settings;
  } catch {
    // Without them everything is as standard; what cannot be reached says so where it is needed.
  }
}

export const setting = (name: SettingName): string => kept[name];

export async function putSetting(name: SettingName, value: string): Promise<void> {
  kept = { ...kept, [name]: value };
  await call('settings.write', { name, value }).catch(() => undefined);
}
