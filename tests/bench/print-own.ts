/** Ours, one size, one time, in this process alone, with the heap that the command has. Started by print.bench.ts. */
import { readFileSync } from 'node:fs';
import { keepYoungGenerationSmall } from '../../cli/young-generation.ts';
import { fontsAsAsked } from '../../electron/host/files/index.ts';
import type { Book } from '../../publishing/book.ts';
import { printBook } from '../../publishing/print.ts';
import type { BenchInput } from './print-engines.ts';
import { timed } from './print-timed.ts';

keepYoungGenerationSmall();
const [, , , inputFile = '', outFile = ''] = process.argv;
const { bookFile } = JSON.parse(readFileSync(inputFile, 'utf8')) as BenchInput;
const book = JSON.parse(readFileSync(bookFile, 'utf8')) as Book;
const fonts = fontsAsAsked();
await timed(() => printBook(book, fonts).bytes, outFile, false);
