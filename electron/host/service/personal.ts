/** What belongs to the user and not into a library: settings, the page's menus for the shell, and what was worked out and may be forgotten. */
import { Refused, SETTINGS, type SettingName } from '../contract/index.ts';
import { fault, type Handlers, type Inner } from './inner.ts';

export const personal = (host: Inner): Pick<Handlers, 'settings.read' | 'settings.write' | 'menu.set' | 'cache.read' | 'cache.write'> => ({
  'settings.read': async () => ({ settings: await host.settings.read() }),

  'settings.write': async ({ name, value }) => {
    const known = (one: string): one is SettingName => Object.hasOwn(SETTINGS, one);
    if (!known(name)) throw new Refused(['odd', `There is no setting "${name}".`]);
    if (!SETTINGS[name].allowed.test(value)) throw new Refused(['odd', `"${name}" cannot be "${value}".`]);
    const settings = await host.settings.change((before) => ({ ...before, [name]: value })).catch(fault(['settingHolds']));
    return { settings };
  },

  'cache.read': async ({ library, name }) => ({ text: (await host.cache.read(host.rootOf(library), name)) ?? null }),

  'cache.write': async ({ library, name, text }) => ({ kept: await host.cache.write(host.rootOf(library), name, text) }),

  'menu.set': async ({ menus }, caller) => {
    host.options.shell?.menu(caller, menus);
    return {};
  },
});
