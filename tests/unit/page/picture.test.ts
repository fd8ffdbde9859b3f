import { describe, expect, test } from 'vitest';
import { noPicture } from '../../../renderer/state/picture.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const PNG = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0]);
const JPEG = new Uint8Array([0xff, 0xd8, 0xff, 0xe0]);

describe('bytes are the picture that their name says', () => {
  test.each([
    ['a.PNG', PNG],
    ['a.jpg', JPEG],
    ['a.JPEG', JPEG],
    ['a.svg', bytes('<svg/>')],
    ['a.svg', bytes('\uFEFF<?xml version="1.0"?>\n<!-- a > b -->\n<!DOCTYPE svg [<!ENTITY a "b">]>\n<svg xmlns="x">')],
    ['a.svg', bytes('<s:svg xmlns:s="x"/>')],
  ])('%s', (name, own) => expect(noPicture(name, own)).toBeUndefined());
  test.each([
    ['a.txt', bytes('hello'), 'other'],
    ['a.gif', bytes('GIF89a'), 'other'],
    ['png', PNG, 'other'],
    ['a.png', bytes('not a png'), 'PNG'],
    ['a.png', JPEG, 'PNG'],
    ['a.png', PNG.slice(0, 7), 'PNG'],
    ['a.jpg', PNG, 'JPEG'],
    ['a.svg', bytes('<html><svg/></html>'), 'SVG'],
    ['a.svg', bytes('<svgs/>'), 'SVG'],
    ['a.svg', bytes(''), 'SVG'],
  ])('%s is not', (name, own, kind) => expect(noPicture(name, own)).toBe(kind));
});
