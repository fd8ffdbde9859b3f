/** One engine, one size, one time, in this process alone: prints seconds, peak memory and bytes as JSON. Started by print.bench.ts. */
import { execFile } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { readFonts } from '../../electron/host/files/index.ts';
import { type BenchInput, engines } from './print-engines.ts';

const [, , name = '', inputFile = '', outFile = ''] = process.argv;
const input = JSON.parse(readFileSync(inputFile, 'utf8')) as BenchInput;
const work = await (engines[name] as NonNullable<(typeof engines)[string]>)(input, await readFonts());

/** Resident memory of this process's children and theirs, summed: a browser is several processes. */
let childrenPeak = 0;
const look = (): void => {
  execFile('ps', ['-eo', 'pid=,ppid=,rss='], (error, text) => {
    if (error) return;
    const rows = text
      .trim()
      .split('\n')
      .map((line) => line.trim().split(/\s+/).map(Number) as [number, number, number]);
    const mine = new Set([process.pid]);
    for (let grown = true; grown; ) {
      grown = false;
      for (const [pid, parent] of rows)
        if (mine.has(parent) && !mine.has(pid)) {
          mine.add(pid);
          grown = true;
        }
    }
    childrenPeak = Math.max(
      childrenPeak,
      rows.filter(([pid]) => pid !== process.pid && mine.has(pid)).reduce((sum, [, , rss]) => sum + rss, 0),
    );
  });
};
const watch = name.startsWith('Chromium') ? setInterval(look, 200) : undefined;

const spent = process.cpuUsage();
const start = performance.now();
const bytes = await work();
const seconds = (performance.now() - start) / 1000;
const { user, system } = process.cpuUsage(spent);
clearInterval(watch);
writeFileSync(outFile, bytes);
// maxRSS is in kilobytes on every system Node knows.
console.log(
  JSON.stringify({
    seconds,
    cpu: (user + system) / 1e6,
    megabytes: (process.resourceUsage().maxRSS + childrenPeak) / 1024,
    bytes: bytes.length,
  }),
);
