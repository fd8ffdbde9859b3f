/** `{name}` stands for a value; what is not given is left out. */
export const fill = (pattern: string, values: Readonly<Record<string, string>>): string =>
  pattern.replace(/\{(\w+)\}/g, (_, name: string) => values[name] ?? '');
