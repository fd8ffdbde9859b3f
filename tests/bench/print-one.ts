/** One of the other engines, one size, one time, in this process alone. Started by print.bench.ts. */
import { readFileSync } from 'node:fs';
import { readFonts } from '../../electron/host/files/index.ts';
import { type BenchInput, engines } from './print-engines.ts';
import { timed } from './print-timed.ts';

const [, , name = '', inputFile = '', outFile = ''] = process.argv;
const input = JSON.parse(readFileSync(inputFile, 'utf8')) as BenchInput;
const work = await (engines[name] as NonNullable<(typeof engines)[string]>)(input, await readFonts());
await timed(work, outFile, name.startsWith('Chromium'));
