/** Cue settings after the times (WebVTT 6.4): a table of names. A bad value leaves the setting as it was. */
import type { CueSettings } from './captions-model.ts';

export const USUAL_SETTINGS: CueSettings = {
  vertical: '',
  line: 'auto',
  snapToLines: true,
  lineAlign: 'start',
  position: 'auto',
  positionAlign: 'auto',
  size: 100,
  align: 'center',
};

type Reader = (value: string, regions: readonly string[]) => Partial<CueSettings> | undefined;

const oneOf = <T extends string>(value: string | undefined, choices: readonly T[]): T | undefined => choices.find((one) => one === value);

/** 0 to 100, with digits on both sides of a point. */
export function percentage(text: string): number | undefined {
  const value = /^\d+(?:\.\d+)?%$/.test(text) ? Number(text.slice(0, -1)) : Number.NaN;
  return value >= 0 && value <= 100 ? value : undefined;
}

const READERS: Readonly<Record<string, Reader>> = {
  region: (value, regions) => (regions.includes(value) ? { region: value } : {}),
  vertical: (value) => {
    const vertical = oneOf(value, ['rl', 'lr']);
    return vertical && { vertical };
  },
  line: (value) => {
    const [at = '', align] = parted(value);
    const lineAlign = align === undefined ? undefined : oneOf(align, ['start', 'center', 'end']);
    if (align !== undefined && lineAlign === undefined) return undefined;
    const percent = at.endsWith('%');
    const line = percent ? percentage(at) : /^-?(?:\d+(?:\.\d+)?)$/.test(at) ? Number(at) : undefined;
    return line === undefined || !Number.isFinite(line)
      ? undefined
      : { line, snapToLines: !percent, ...(lineAlign === undefined ? {} : { lineAlign }) };
  },
  position: (value) => {
    const [at = '', align] = parted(value);
    const positionAlign = align === undefined ? undefined : oneOf(align, ['line-left', 'center', 'line-right']);
    if (align !== undefined && positionAlign === undefined) return undefined;
    const position = percentage(at);
    return position === undefined ? undefined : { position, ...(positionAlign === undefined ? {} : { positionAlign }) };
  },
  size: (value) => {
    const size = percentage(value);
    return size === undefined ? undefined : { size };
  },
  align: (value) => {
    const align = oneOf(value, ['start', 'center', 'end', 'left', 'right']);
    return align && { align };
  },
};

function parted(value: string): readonly [string, string?] {
  const comma = value.indexOf(',');
  return comma === -1 ? [value] : [value.slice(0, comma), value.slice(comma + 1)];
}

export function readSettings(text: string, regions: readonly string[]): CueSettings {
  let out = USUAL_SETTINGS;
  for (const setting of text.split(/[ \t\n\f\r]+/)) {
    const colon = setting.indexOf(':');
    if (colon < 1 || colon === setting.length - 1) continue;
    const name = setting.slice(0, colon);
    const read = Object.hasOwn(READERS, name) ? READERS[name]?.(setting.slice(colon + 1), regions) : undefined;
    if (name === 'region' && read && read.region === undefined) {
      const { region: _, ...rest } = out;
      out = rest;
    } else out = { ...out, ...read };
  }
  // A cue placed by itself stands in no region.
  if (out.region === undefined || (out.line === 'auto' && out.size === 100 && out.vertical === '')) return out;
  const { region: _, ...placed } = out;
  return placed;
}
