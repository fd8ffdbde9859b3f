import { describe, expect, test } from 'vitest';
import { breaches, circles } from './borders.ts';
import { readSource, sourceFiles } from './source.ts';

const crossing = (path: string, text: string): readonly string[] => breaches(readSource(path, text)).map((breach) => breach.sentence);

describe('borders between folders', () => {
  test('no file crosses a border', () => {
    const found = sourceFiles().flatMap((file) => breaches(file));
    expect(found.map(({ file, line, to, sentence }) => `${file}:${line} imports ${to}. ${sentence}`)).toEqual([]);
  });

  test('no circle of imports between folders', () => {
    expect(circles(sourceFiles())).toEqual([]);
  });
});

describe('the borders themselves', () => {
  test.each([
    ['procedures-schema/format/x.ts', "import { y } from '../checks/index.ts';"],
    ['procedures-schema/format/x.ts', "import type { Y } from '../flow/index.ts';"],
    ['procedures-schema/registers/x.ts', "export type { Y } from '../quantities/index.ts';"],
    ['procedures-schema/reading/x.ts', "type Y = import('../numbering/index.ts').Y;"],
    ['procedures-schema/checks/x.ts', "import { y } from '../pipeline.ts';"],
    ['procedures-schema/checks/x.ts', "import { y } from '../assist/index.ts';"],
    ['procedures-schema/assist/x.ts', "import { y } from '../pipeline.ts';"],
    ['procedures-schema/checks/x.ts', "import { y } from '../format/blocks.ts';"],
    ['procedures-schema/checks/x.ts', "import { y } from '../../publishing/index.ts';"],
    ['procedures-schema/checks/x.ts', "import fs from 'node:fs';"],
    ['procedures-schema/checks/x.ts', "const y = await import('node:fs');"],
    ['procedures-schema/checks/x.ts', "import { parse } from 'yaml';"],
    ['publishing/layout/x.ts', "import { PDFDocument } from 'pdf-lib';"],
    ['publishing/layout/x.ts', "import { y } from '../pdf/writer.ts';"],
    ['cli/commands/x.ts', "import { app } from 'electron';"],
    ['cli/commands/x.ts', "import { writeFileSync } from 'node:fs';"],
    ['renderer/x.ts', "import { y } from '../electron/host/files/index.ts';"],
    ['electron/x.ts', "import { y } from '../tests/support/y.ts';"],
    ['tests/unit/x.test.ts', "import { y } from './y.test.ts';"],
  ])('%s: %s is a breach', (path, text) => {
    expect(crossing(path, text)).not.toEqual([]);
  });

  test.each([
    ['procedures-schema/format/x.ts', "import { y } from '../finding.ts'; import remark from 'remark-parse';"],
    ['procedures-schema/numbering/x.ts', "import { y } from '../reading/index.ts';"],
    ['procedures-schema/reading/x.ts', "import { y } from './lexicon/en/english.ts';"],
    ['procedures-schema/pipeline.ts', "import { y } from './checks/index.ts';"],
    ['publishing/pdf/x.ts', "import { PDFDocument } from 'pdf-lib'; import { y } from '../layout/index.ts';"],
    ['cli/commands/x.ts', "import { y } from '../../electron/host/index.ts'; import { z } from '../../publishing/index.ts';"],
  ])('%s: %s is fine', (path, text) => {
    expect(crossing(path, text)).toEqual([]);
  });

  test('a circle is named once; one inside a folder is none', () => {
    const ring = (a: string, b: string, c: string) => [
      readSource(`${a}/a.ts`, `import '../${b}/b.ts';`),
      readSource(`${b}/b.ts`, `import '../${c}/c.ts';`),
      readSource(`${c}/c.ts`, `import '../${a}/a.ts';`),
    ];
    expect(circles(ring('one', 'two', 'three'))).toEqual(['one/a.ts -> two/b.ts -> three/c.ts']);
    expect(circles(ring('one', 'one', 'one'))).toEqual([]);
  });
});
