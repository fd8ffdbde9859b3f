/** PNG and JPEG files of other programs are read whole, and told when they are not: cut off, damaged, of another kind, or too much. */
import { decode } from 'fast-png';
import { describe, expect, test } from 'vitest';
import { readBitmap } from '../../../procedures-schema/figures/index.ts';
import { bytesOf, flipped, pictureFile, placeOf, withBytes } from '../../support/figures.ts';

const kindOf = (name: string): 'png' | 'jpeg' => (name.endsWith('.png') ? 'png' : 'jpeg');
const read = (name: string, bytes = pictureFile(name)) => readBitmap(kindOf(name), bytes);
const says = (name: string, bytes: Uint8Array): string => {
  const facts = read(name, bytes);
  return 'fault' in facts ? facts.fault.says : 'nothing wrong';
};

const FILES = [
  ['rgb.png', 3],
  ['grey.png', 1],
  ['alpha.png', 4],
  ['rgb.jpg', 3],
  ['progressive.jpg', 3],
  ['cmyk.jpg', 4],
] as const;
const PNGS = FILES.map(([name]) => name).filter((name) => name.endsWith('.png'));

describe('files of other programs', () => {
  test.each(FILES)('%s', (name, components) => {
    expect(read(name)).toEqual({ columns: 67, rows: 94, components });
  });

  test.each(PNGS)('%s: a decoder sees the same size', (name) => {
    const { width, height } = decode(pictureFile(name));
    expect(read(name)).toMatchObject({ columns: width, rows: height });
  });

  test.each(FILES)('%s cut off at any place is not whole', (name) => {
    const bytes = pictureFile(name);
    for (let length = 0; length < bytes.length; length += 1)
      expect(says(name, bytes.slice(0, length)), `${length}`).not.toBe('nothing wrong');
    expect(says(name, bytes.slice(0, bytes.length - 200))).toBe('It is cut off: the file ends before the picture does.');
  });

  test.each(PNGS)('%s with any byte changed is damaged', (name) => {
    const bytes = pictureFile(name);
    for (let at = 0; at < bytes.length; at += 1) expect(says(name, flipped(bytes, at)), `${at}`).not.toBe('nothing wrong');
  });

  test.each(FILES)('%s with something after its end is whole: cameras do that', (name) => {
    const bytes = pictureFile(name);
    expect(says(name, new Uint8Array([...bytes, 1, 2, 3]))).toBe('nothing wrong');
  });
});

describe('what is wrong is said', () => {
  test('a check sum', () => {
    const bytes = pictureFile('rgb.png');
    const data = placeOf(bytes, [0x49, 0x44, 0x41, 0x54]);
    expect(says('rgb.png', flipped(bytes, data + 40))).toBe(
      'It is damaged: the check sum of its part IDAT does not fit what stands there.',
    );
  });

  test.each([
    [0xc3, 'It is of a kind of JPEG that a PDF cannot hold.'],
    [0xc9, 'It is of a kind of JPEG that a PDF cannot hold.'],
    [0xc1, 'nothing wrong'],
  ])('a frame of kind %i', (marker, said) => {
    const bytes = pictureFile('rgb.jpg');
    expect(says('rgb.jpg', withBytes(bytes, placeOf(bytes, [0xff, 0xc0]) + 1, [marker]))).toBe(said);
  });

  test('twelve bits a colour, five colours, no height', () => {
    const bytes = pictureFile('rgb.jpg');
    const frame = placeOf(bytes, [0xff, 0xc0]);
    expect(says('rgb.jpg', withBytes(bytes, frame + 4, [12]))).toBe('It has 12 bits a colour; a PDF can hold eight.');
    expect(says('rgb.jpg', withBytes(bytes, frame + 9, [5]))).toBe('It has 5 colours; a PDF can hold one, three or four.');
    expect(says('rgb.jpg', withBytes(bytes, frame + 5, [0, 0]))).toBe('It does not say how large it is.');
  });

  test('a length that leads nowhere', () => {
    const bytes = pictureFile('rgb.jpg');
    expect(says('rgb.jpg', withBytes(bytes, placeOf(bytes, [0xff, 0xdb]) + 2, [0, 20]))).toMatch(
      /^It is damaged: the part that begins after \d+ bytes says what no JPEG says\.$/,
    );
    expect(says('rgb.jpg', withBytes(bytes, placeOf(bytes, [0xff, 0xe0]) + 2, [0, 9]))).toMatch(/^It is damaged: after \d+ bytes/);
  });

  test.each([
    ['a.png', pictureFile('rgb.jpg'), 'It is named PNG and holds a JPEG picture.', 'A name that ends in .jpg.'],
    ['a.jpg', pictureFile('rgb.png'), 'It is named JPEG and holds a PNG picture.', 'A name that ends in .png.'],
    ['a.png', bytesOf('GIF89a...'), 'It is named PNG and holds a GIF picture.', 'The picture saved as PNG.'],
    ['a.jpg', bytesOf('RIFF\0\0\0\0WEBPVP8 '), 'It is named JPEG and holds a WebP picture.', 'The picture saved as JPEG.'],
    ['a.png', bytesOf('<svg xmlns=""/>'), 'It is named PNG and holds an SVG drawing.', 'A name that ends in .svg.'],
    ['a.png', bytesOf('not a picture'), 'It is named PNG and does not begin as one.', 'The picture saved as PNG.'],
    ['a.png', bytesOf(''), 'The file is empty.', 'The picture copied here again, or saved anew as PNG.'],
  ])('%s that holds something else: %#', (name, bytes, said, right) => {
    expect(read(name, bytes)).toEqual({ fault: { says: said, right } });
  });

  test('more dots than a page can hold: at the bound and over it', () => {
    const bytes = pictureFile('rgb.jpg');
    const size = placeOf(bytes, [0xff, 0xc0]) + 5;
    const sized = (rows: number, columns: number): string =>
      says('rgb.jpg', withBytes(bytes, size, [rows >> 8, rows & 255, columns >> 8, columns & 255]));
    expect(sized(10_000, 10_000)).toMatch(/^It is damaged: its dots end after \d+ bytes, before the picture does\.$/);
    expect(sized(10_000, 10_001)).toBe('It says that it is 10001 by 10000 dots, which is more than a page can hold.');
  });
});
