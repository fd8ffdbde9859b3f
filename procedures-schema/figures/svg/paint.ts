/** How a shape of an SVG is painted: presentation attributes and `style`, inherited as SVG 2 says. Leaves geometry to shapes.ts. */

/** Red, green and blue, each from 0 to 255. */
export type Colour = readonly [number, number, number];

export interface Paint {
  readonly fill: Colour | undefined;
  readonly stroke: Colour | undefined;
  readonly strokeWidth: number;
  readonly dash: readonly number[] | undefined;
  readonly cap: 'butt' | 'round' | 'square';
  readonly join: 'miter' | 'round' | 'bevel';
  readonly evenOdd: boolean;
  readonly colour: Colour;
  readonly opacity: number;
  readonly fillOpacity: number;
  readonly strokeOpacity: number;
  readonly fontSize: number;
  readonly bold: boolean;
  readonly italic: boolean;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly baseline: 'alphabetic' | 'middle';
  readonly shown: boolean;
}

export const firstPaint: Paint = {
  fill: [0, 0, 0],
  stroke: undefined,
  strokeWidth: 1,
  dash: undefined,
  cap: 'butt',
  join: 'miter',
  evenOdd: false,
  colour: [0, 0, 0],
  opacity: 1,
  fillOpacity: 1,
  strokeOpacity: 1,
  fontSize: 16,
  bold: false,
  italic: false,
  anchor: 'start',
  baseline: 'alphabetic',
  shown: true,
};

const names: Readonly<Record<string, Colour>> = {
  black: [0, 0, 0],
  white: [255, 255, 255],
  gray: [128, 128, 128],
  grey: [128, 128, 128],
  silver: [192, 192, 192],
  lightgray: [211, 211, 211],
  lightgrey: [211, 211, 211],
  darkgray: [169, 169, 169],
  darkgrey: [169, 169, 169],
  dimgray: [105, 105, 105],
  dimgrey: [105, 105, 105],
  red: [255, 0, 0],
  green: [0, 128, 0],
  blue: [0, 0, 255],
  yellow: [255, 255, 0],
  orange: [255, 165, 0],
  navy: [0, 0, 128],
  maroon: [128, 0, 0],
  teal: [0, 128, 128],
  brown: [165, 42, 42],
};

/** undefined: no paint. 'same': not a colour we know, so what was inherited holds. */
export function readColour(text: string, current: Colour): Colour | undefined | 'same' {
  const value = text.trim().toLowerCase();
  if (value === 'none' || value === 'transparent') return undefined;
  if (value === 'currentcolor') return current;
  const hex = /^#([0-9a-f]{3}|[0-9a-f]{6})$/.exec(value)?.[1];
  if (hex !== undefined) {
    const pairs = hex.length === 3 ? [...hex].map((digit) => digit + digit) : [hex.slice(0, 2), hex.slice(2, 4), hex.slice(4)];
    return pairs.map((pair) => Number.parseInt(pair, 16)) as unknown as Colour;
  }
  const rgb = /^rgba?\(\s*([\d.]+)(%?)[\s,]+([\d.]+)%?[\s,]+([\d.]+)%?/.exec(value);
  if (rgb !== null) {
    const unit = rgb[2] === '%' ? 2.55 : 1;
    return [rgb[1], rgb[3], rgb[4]].map((part) => Math.min(255, Math.round(Number(part) * unit))) as unknown as Colour;
  }
  return names[value] ?? 'same';
}

export const readLength = (text: string | undefined, otherwise: number, whole = 100): number => {
  const match = /^\s*([-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)\s*(px|pt|mm|cm|in|pc|%)?\s*$/i.exec(text ?? '');
  if (match === null) return otherwise;
  const unit = { px: 1, pt: 4 / 3, pc: 16, in: 96, cm: 96 / 2.54, mm: 96 / 25.4, '%': whole / 100 }[(match[2] ?? 'px').toLowerCase()] ?? 1;
  return Number(match[1]) * unit;
};

const unit = (text: string): number => Math.min(1, Math.max(0, readLength(text, 1, 1)));

type Change = (value: string, paint: Paint) => Partial<Paint>;

const properties: Readonly<Record<string, Change>> = {
  color: (value, paint) => {
    const colour = readColour(value, paint.colour);
    return colour === 'same' || colour === undefined ? {} : { colour };
  },
  fill: (value, paint) => {
    const fill = readColour(value, paint.colour);
    return fill === 'same' ? {} : { fill };
  },
  stroke: (value, paint) => {
    const stroke = readColour(value, paint.colour);
    return stroke === 'same' ? {} : { stroke };
  },
  'stroke-width': (value, paint) => ({ strokeWidth: Math.max(0, readLength(value, paint.strokeWidth)) }),
  'stroke-dasharray': (value) => {
    const dash = value === 'none' ? [] : value.split(/[\s,]+/).map((part) => Math.max(0, readLength(part, 0)));
    return { dash: dash.some((part) => part > 0) ? dash : undefined };
  },
  'stroke-linecap': (value) => (value === 'round' || value === 'square' || value === 'butt' ? { cap: value } : {}),
  'stroke-linejoin': (value) => (value === 'round' || value === 'bevel' || value === 'miter' ? { join: value } : {}),
  'fill-rule': (value) => ({ evenOdd: value === 'evenodd' }),
  opacity: (value, paint) => ({ opacity: paint.opacity * unit(value) }),
  'fill-opacity': (value) => ({ fillOpacity: unit(value) }),
  'stroke-opacity': (value) => ({ strokeOpacity: unit(value) }),
  'font-size': (value, paint) => ({ fontSize: Math.max(0, readLength(value, paint.fontSize, paint.fontSize)) }),
  'font-weight': (value) => ({ bold: value === 'bold' || value === 'bolder' || Number(value) >= 600 }),
  'font-style': (value) => ({ italic: value === 'italic' || value === 'oblique' }),
  'text-anchor': (value) => (value === 'start' || value === 'middle' || value === 'end' ? { anchor: value } : {}),
  'dominant-baseline': (value) => ({ baseline: value === 'middle' || value === 'central' ? 'middle' : 'alphabetic' }),
  visibility: (value) => ({ shown: value === 'visible' }),
};

/** Attributes first, `style` over them. */
export function paintOf(attributes: Readonly<Record<string, string>>, inherited: Paint): Paint {
  let paint = inherited;
  const set = (name: string, value: string) => {
    const change = Object.hasOwn(properties, name) ? properties[name] : undefined;
    if (change !== undefined && value !== 'inherit') paint = { ...paint, ...change(value.trim(), paint) };
  };
  if (attributes.color !== undefined) set('color', attributes.color);
  for (const [name, value] of Object.entries(attributes)) if (name !== 'color') set(name, value);
  for (const declaration of (attributes.style ?? '').split(';')) {
    const colon = declaration.indexOf(':');
    if (colon > 0) set(declaration.slice(0, colon).trim().toLowerCase(), declaration.slice(colon + 1));
  }
  return paint;
}
