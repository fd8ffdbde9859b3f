/** Every callout and every number drawn in the sample library, made wrong one at a time: each slip is found, and none is told of where there is none. */
import { beforeAll, expect, test } from 'vitest';
import { type Engine, type FigureFacts, type Finding, figureFacts, newEngine } from '../../../procedures-schema/index.ts';
import { type Sample, sample } from '../../support/sample.ts';

let it: Sample;
let engine: Engine;
const drawings = new Map<string, string>();
const own = ({ check }: Finding): boolean => /^(callout|figure)-/.test(check);
const facts = (source: string): FigureFacts => figureFacts({ kind: 'svg', source });
const found = (delta: ReturnType<Engine['apply']>): readonly Finding[] => [...delta.findings.values()].flat().filter(own);

beforeAll(async () => {
  it = await sample();
  for (const [path, image] of it.input.figures) if (image.kind === 'svg') drawings.set(path, image.source);
  engine = newEngine();
  const figures = [...drawings].map(([path, source]) => ({ path, present: true as const, figure: facts(source) }));
  const first = engine.apply([...it.texts, ...figures]);
  expect(found(first)).toEqual([]);
});

test('a callout to a number that is not drawn is found where it stands', () => {
  let slips = 0;
  for (const { path, text } of it.texts) {
    if (!path.startsWith('procedures/') || !text.includes('](figures/')) continue;
    for (const { index, 0: all } of text.matchAll(/(?<=\] )\(\d\)/g)) {
      const told = found(engine.apply([{ path, text: `${text.slice(0, index)}(9)${text.slice(index + all.length)}` }]));
      expect(
        told.map(({ check, range }) => [check, range.start.offset]),
        `${path} ${all}`,
      ).toContainEqual(['callout-there', index]);
      slips += 1;
    }
    expect(found(engine.apply([{ path, text }]))).toEqual([]);
  }
  expect(slips).toBeGreaterThan(50);
});

test('a number that is taken out of a drawing is missed, and one that is put in asks what it is', () => {
  let slips = 0;
  for (const [path, source] of drawings) {
    const numbers = new Set([...source.matchAll(/>(\d)<\/text>/g)].map(([, number = '']) => number));
    const redrawn = (changed: string) => found(engine.apply([{ path, present: true, figure: facts(changed) }])).map(({ check }) => check);
    for (const number of numbers) {
      expect(redrawn(source.replaceAll(`>${number}</text>`, '></text>')), `${path} without ${number}`).toContain('callout-there');
      slips += 1;
    }
    const more = `<text x="9" y="20">${numbers.size + 1}</text></svg>`;
    expect(redrawn(source.replace(/<\/svg>\s*$/, more)), `${path} with one more`).toEqual(['callout-explained']);
    expect(redrawn(source.slice(0, -20)), `${path} cut off`).toContain('figure-whole');
    expect(redrawn(source)).toEqual([]);
  }
  expect(slips).toBeGreaterThan(50);
});
