/** What belongs to the user and not to a library: settings, and the page's menus for the shell. */
import { Refused, SETTINGS } from '../contract/index.ts';
import { fault, type Handlers, type Inner } from './inner.ts';

export const personal = (host: Inner): Pick<Handlers, 'settings.read' | 'settings.write' | 'menu.set'> => ({
  'settings.read': async () => ({ settings: await host.settings.read() }),

  'settings.write': async ({ name, value }) => {
    if (!Object.hasOwn(SETTINGS, name)) throw new Refused(`There is no setting "${name}".`);
    if (!SETTINGS[name].allowed.test(value)) throw new Refused(`"${name}" cannot be "${value}".`);
    const settings = await host.settings
      .change((before) => ({ ...before, [name]: value }))
      .catch(fault('The setting holds until you close.'));
    return { settings };
  },

  'menu.set': async ({ menus }, caller) => {
    host.options.shell?.menu(caller, menus);
    return {};
  },
});
