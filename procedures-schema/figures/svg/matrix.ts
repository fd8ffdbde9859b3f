/** Plane transforms of SVG and the few angle functions they need, from sums and square roots only, so that every machine agrees. */

/** a, b, c, d, e, f as in SVG: x' = a x + c y + e, y' = b x + d y + f. */
export type Matrix = readonly [number, number, number, number, number, number];

export const identity: Matrix = [1, 0, 0, 1, 0, 0];

export const multiply = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[2] * n[1],
  m[1] * n[0] + m[3] * n[1],
  m[0] * n[2] + m[2] * n[3],
  m[1] * n[2] + m[3] * n[3],
  m[0] * n[4] + m[2] * n[5] + m[4],
  m[1] * n[4] + m[3] * n[5] + m[5],
];

export const apply = (m: Matrix, x: number, y: number): readonly [number, number] => [
  m[0] * x + m[2] * y + m[4],
  m[1] * x + m[3] * y + m[5],
];

/** How much lengths grow: the square root of the area's growth. */
export const scaleOf = (m: Matrix): number => Math.sqrt(Math.abs(m[0] * m[3] - m[1] * m[2]));

const pi = Math.PI;

/** Sine and cosine of an angle in degrees by their series, exact at the right angles. */
export function turn(degrees: number): readonly [sine: number, cosine: number] {
  const quarter = Math.round(degrees / 90);
  const rest = ((degrees - quarter * 90) * pi) / 180;
  const square = rest * rest;
  let sine = 0;
  let cosine = 0;
  let term = 1;
  for (let n = 0; n < 12; n += 1) {
    cosine += term;
    sine += (term * rest) / (2 * n + 1);
    term = (-term * square) / ((2 * n + 1) * (2 * n + 2));
  }
  switch (((quarter % 4) + 4) % 4) {
    case 0:
      return [sine, cosine];
    case 1:
      return [cosine, -sine];
    case 2:
      return [-sine, -cosine];
    default:
      return [-cosine, sine];
  }
}

export const tangent = (degrees: number): number => {
  const [sine, cosine] = turn(degrees);
  return cosine === 0 ? 0 : sine / cosine;
};

const numbers = (text: string): number[] => (text.match(/[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/gi) ?? []).map(Number);

export function readTransform(text: string | undefined): Matrix {
  let out = identity;
  for (const [, name, inside] of (text ?? '').matchAll(/(\w+)\s*\(([^)]*)\)/g)) {
    const n = numbers(inside as string);
    const at = (index: number, otherwise = 0) => n[index] ?? otherwise;
    let next: Matrix = identity;
    if (name === 'matrix' && n.length === 6) next = n as unknown as Matrix;
    else if (name === 'translate') next = [1, 0, 0, 1, at(0), at(1)];
    else if (name === 'scale') next = [at(0, 1), 0, 0, at(1, at(0, 1)), 0, 0];
    else if (name === 'rotate') {
      const [s, c] = turn(at(0));
      next = multiply(multiply([1, 0, 0, 1, at(1), at(2)], [c, s, -s, c, 0, 0]), [1, 0, 0, 1, -at(1), -at(2)]);
    } else if (name === 'skewX') next = [1, 0, tangent(at(0)), 1, 0, 0];
    else if (name === 'skewY') next = [1, tangent(at(0)), 0, 1, 0, 0];
    out = multiply(out, next);
  }
  return out;
}
