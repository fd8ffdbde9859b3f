/** What a user may set, as a table: the standard and the values allowed. None of it touches a finding: those have no off switch. */

interface Setting {
  readonly standard: string;
  readonly allowed: RegExp;
}

export const SETTINGS = {
  /** Of the page's words; empty: the system's. */
  language: { standard: '', allowed: /^([a-z]{2,3}(-[A-Za-z0-9]{2,8})?)?$/ },
  /** Percent. */
  'text size': { standard: '100', allowed: /^(80|90|100|110|125|150|175|200)$/ },
  'spell-check': { standard: 'on', allowed: /^(on|off)$/ },
  tour: { standard: 'due', allowed: /^(due|seen)$/ },
  /** Of who remarks, accepts and signs. */
  initials: { standard: '', allowed: /^\p{L}{0,6}$/u },
  'signs as': { standard: '', allowed: /^[\p{L} .-]{0,40}$/u },
  /** Of the pages in Print: fitted, or percent of their true size. Empty: nobody has chosen. */
  'pages zoom': { standard: '', allowed: /^(|page|width|50|75|100|125|150|200|250|300)$/ },
  'pages arranged': { standard: 'single', allowed: /^(single|facing|many)$/ },
} as const satisfies Readonly<Record<string, Setting>>;

export type SettingName = keyof typeof SETTINGS;
export type Settings = Readonly<Record<SettingName, string>>;

/** What of a value read from anywhere is a setting; the rest is as standard. */
export function soundSettings(value: unknown): Settings {
  const given = (typeof value === 'object' && value !== null ? value : {}) as Readonly<Record<string, unknown>>;
  const entries = Object.entries<Setting>(SETTINGS).map(([name, { standard, allowed }]) => {
    const own = Object.hasOwn(given, name) ? given[name] : undefined;
    return [name, typeof own === 'string' && allowed.test(own) ? own : standard];
  });
  return Object.fromEntries(entries) as Settings;
}
