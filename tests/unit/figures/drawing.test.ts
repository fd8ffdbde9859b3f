/** What an SVG drawing says of itself: size, words, smallest print, and why it is none. */
import { gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { figureFacts } from '../../../procedures-schema/figures/index.ts';
import { pictureFile } from '../../support/figures.ts';

const factsOf = (source: string) => figureFacts({ kind: 'svg', source });
const inside = (content: string, attributes = 'viewBox="0 0 100 50" width="200"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${attributes}>${content}</svg>`;

describe('words that stand in it', () => {
  test.each([
    ['one', '<text x="1" y="2">1</text>', ['1']],
    ['each once, in the order drawn', '<text>2</text><text>1</text><text>2</text>', ['2', '1']],
    ['spaces around', '<text>\n  3\n</text>', ['3']],
    ['stretches with places of their own', '<text><tspan x="1" y="1">4</tspan><tspan x="1" y="9">5</tspan></text>', ['4', '5']],
    ['pieces of one stretch', '<text>oil <tspan font-weight="bold">tank</tspan></text>', ['oil tank']],
    ['used again', '<defs><text id="t">6</text></defs><use href="#t"/>', ['6']],
    ['in a group that is moved', '<g transform="translate(1 1) scale(2)"><text>7</text></g>', ['7']],
    ['letters by number', '<text>&#56;</text>', ['8']],
    [
      'not shown',
      '<g display="none"><text>1</text></g><text visibility="hidden">2</text><text fill="none">3</text><text font-size="0">4</text>',
      [],
    ],
    ['said and not drawn', '<title>1</title><desc>2</desc><defs><text>3</text></defs><text></text>', []],
    ['none', '<path d="M0 0h9"/>', []],
  ])('%s', (_, content, labels) => {
    expect(factsOf(inside(content))).toMatchObject({ labels });
  });
});

describe('size and smallest print, in thousandths of a point', () => {
  test('a drawing of 200 px is 150 pt wide; print of 8 in a box of 100 comes out at 12 pt', () => {
    expect(factsOf(inside('<text font-size="8">a</text><text font-size="20">b</text>'))).toEqual({
      kind: 'svg',
      width: 150_000,
      height: 75_000,
      labels: ['a', 'b'],
      smallest: 12_000,
    });
  });
  test('what stands in a group that is scaled', () => {
    expect(factsOf(inside('<g transform="scale(0.5)"><text font-size="8">a</text></g>'))).toMatchObject({ smallest: 6_000 });
  });
  test('without words', () => {
    expect(factsOf(inside(''))).toMatchObject({ smallest: undefined });
  });
});

describe('no drawing', () => {
  test.each([
    ['', 'The file is empty.'],
    ['<!-- a -->', 'There is no element in it.'],
    ['a drawing', 'It is named SVG and does not begin as a drawing.'],
    ['<html/>', 'Its outermost element is <html>, not <svg>.'],
    ['<svg>\n<g>\n</svg>', 'Line 3 closes <svg> while <g> of line 2 is open.'],
    ['<svg>\n<g>', '<g> of line 2 is never closed: the file may be cut off.'],
    ['<svg/></g>', 'Line 1 closes <g>, which is not open.'],
    ['<svg>\n\n<rect width="9', 'What begins in line 3 has no end: the file is cut off, or a sign is missing there.'],
    ['<svg viewBox="0 0 1e9 1"/>', 'Its width or height is nothing that a page can hold.'],
    [`<svg>${'<g>'.repeat(70)}`, 'Line 1 lies more than 64 elements deep.'],
  ])('%j', (source, says) => {
    expect(factsOf(source)).toMatchObject({ kind: 'svg', fault: { says } });
  });
  test.each([
    ['rgb.png', 'It is named SVG and holds a PNG picture.', 'A name that ends in .png.'],
    ['rgb.jpg', 'It is named SVG and holds a JPEG picture.', 'A name that ends in .jpg.'],
  ])('%s under the name of a drawing', (name, says, right) => {
    expect(factsOf(new TextDecoder().decode(pictureFile(name)))).toEqual({ kind: 'svg', fault: { says, right } });
  });
  test('in UTF-16, with its mark and without', () => {
    const wide = Buffer.from('\uFEFF<svg><text>1</text></svg>', 'utf16le');
    for (const bytes of [wide, wide.subarray(2)])
      expect(factsOf(new TextDecoder().decode(bytes))).toMatchObject({ fault: { says: 'It is text in UTF-16, and is read as UTF-8.' } });
  });
  test('packed', () => {
    const packed = new TextDecoder().decode(gzipSync('<svg/>'));
    expect(factsOf(packed)).toMatchObject({ fault: { says: 'It is named SVG and holds something packed with gzip.' } });
  });
  test('what may stand before it', () => {
    const before = '\uFEFF\n<?xml version="1.0"?>\n<!-- a -->\n<!DOCTYPE svg [<!ENTITY a "b">]>\n';
    expect(factsOf(before + inside('<text>1</text>'))).toMatchObject({ labels: ['1'] });
  });
});
