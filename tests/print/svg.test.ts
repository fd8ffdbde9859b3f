/**
 * Drawings as drawing programs write them: what is said by a style sheet, used again or chosen by a switch is drawn as if it had been written out
 * (SVG 2, 5.6 use, 5.9 switch, 6.3 style sheets), and what is not drawn is named.
 */
import { describe, expect, test } from 'vitest';
import { readSvg } from '../../procedures-schema/figures/index.ts';
import { newFontSource } from '../../publishing/layout/index.ts';
import { drawSvg } from '../../publishing/layout/svg/index.ts';
import { sample } from '../support/sample.ts';

const { fonts } = await sample();
const { shaper } = newFontSource(fonts);
const whole = (inside: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 50" width="100" height="50">${inside}</svg>`;
function drawn(inside: string): { readonly ops: unknown; readonly lost: readonly string[] } {
  const read = readSvg(whole(inside));
  if ('fault' in read) throw new Error(read.fault.says);
  return { ops: drawSvg(read.drawing, 1, shaper), lost: read.drawing.lost };
}

const RED = '<rect x="10" y="10" width="20" height="5" fill="#ff0000" stroke="#0000ff" stroke-width="2"/>';

describe('drawn as if written out', () => {
  test.each([
    ['a class', '<style>.a{fill:#ff0000;stroke:#0000ff;stroke-width:2}</style><rect class="a" x="10" y="10" width="20" height="5"/>'],
    [
      'an element, a class over it, an id over both',
      '<style>#r{stroke-width:2} .a{fill:#ff0000} rect{fill:#00ff00;stroke:#0000ff;stroke-width:9}</style><rect id="r" class="b a" x="10" y="10" width="20" height="5"/>',
    ],
    [
      'a rule over an attribute',
      '<style><![CDATA[ /* ink */ rect, circle { fill : #ff0000 } ]]></style><rect x="10" y="10" width="20" height="5" fill="#00ff00" stroke="#0000ff" stroke-width="2"/>',
    ],
    [
      'its own style over a rule',
      '<style>rect{fill:#00ff00}</style><rect x="10" y="10" width="20" height="5" style="fill:#ff0000" stroke="#0000ff" stroke-width="2"/>',
    ],
    [
      'used again elsewhere',
      `<defs><rect id="r" width="20" height="5" fill="#ff0000" stroke="#0000ff" stroke-width="2"/></defs><use href="#r" x="10" y="10"/>`,
    ],
    [
      'a symbol with a box',
      `<symbol id="s" viewBox="0 0 10 10"><rect width="10" height="2.5" fill="#ff0000" stroke="#0000ff" stroke-width="1"/></symbol><use xlink:href="#s" x="10" y="10" width="20" height="20"/>`,
    ],
    ['the first of a switch', `<switch><g systemLanguage="de"><circle r="9"/></g>${RED}<circle r="3"/></switch>`],
  ])('%s', (_, inside) => {
    expect(drawn(inside)).toEqual(drawn(RED));
  });
  test('a gradient is its mean colour, and that is said', () => {
    const { ops, lost } = drawn(
      '<linearGradient id="g"><stop stop-color="#ff0000"/><stop style="stop-color:#0000ff"/></linearGradient><linearGradient id="h" href="#g"/><rect width="9" height="9" fill="url(#h)"/>',
    );
    expect(ops).toEqual(drawn('<rect width="9" height="9" fill="#800080"/>').ops);
    expect(lost).toEqual(['linearGradient, drawn in one colour']);
  });
});

describe('named where it is not drawn', () => {
  test.each([
    ['<image href="x.png" width="9" height="9"/>', ['image']],
    ['<line x2="9" marker-end="url(#arrow)" stroke="#000"/><marker id="arrow"/>', ['marker']],
    ['<rect width="9" height="9" style="clip-path:url(#c)"/><clipPath id="c"/>', ['clip-path']],
    ['<pattern id="p"/><rect width="9" height="9" fill="url(#p)"/>', ['pattern']],
    ['<use href="#nowhere"/>', ['use of what is not in the drawing']],
    ['<g id="a"><use href="#a"/></g>', ['use within itself']],
    [RED, []],
  ])('%s', (inside, lost) => {
    expect(drawn(inside).lost).toEqual(lost);
  });
  test('no figure of the sample library has such a part', async () => {
    const { input } = await sample();
    let seen = 0;
    for (const [path, image] of input.figures) {
      if (image.kind !== 'svg') continue;
      seen += 1;
      expect(readSvg(image.source), path).toMatchObject({ drawing: { lost: [] } });
    }
    expect(seen).toBeGreaterThan(10);
  });
});
