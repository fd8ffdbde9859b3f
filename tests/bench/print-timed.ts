/** The timed part of one engine in this process alone: seconds, peak memory and bytes, printed as JSON for print.bench.ts. */
import { execFile } from 'node:child_process';
import { writeFileSync } from 'node:fs';

/** `others`: whether processes that this one starts count for its memory too (a browser is several). */
export async function timed(work: () => Promise<Uint8Array> | Uint8Array, outFile: string, others: boolean): Promise<void> {
  let childrenPeak = 0;
  const watch = others
    ? setInterval(() => {
        childrenOf(process.pid, (kilobytes) => {
          childrenPeak = Math.max(childrenPeak, kilobytes);
        });
      }, 200)
    : undefined;
  const spent = process.cpuUsage();
  const start = performance.now();
  const bytes = await work();
  const seconds = (performance.now() - start) / 1000;
  const { user, system } = process.cpuUsage(spent);
  clearInterval(watch);
  writeFileSync(outFile, bytes);
  // maxRSS is in kilobytes on every system Node knows.
  const megabytes = (process.resourceUsage().maxRSS + childrenPeak) / 1024;
  console.log(JSON.stringify({ seconds, cpu: (user + system) / 1e6, megabytes, bytes: bytes.length }));
}

/** Resident memory of a process's children and theirs, summed, in kilobytes. */
function childrenOf(parent: number, say: (kilobytes: number) => void): void {
  execFile('ps', ['-eo', 'pid=,ppid=,rss='], (error, text) => {
    if (error) return;
    const rows = text
      .trim()
      .split('\n')
      .map((line) => line.trim().split(/\s+/).map(Number) as [number, number, number]);
    const mine = new Set([parent]);
    for (let grown = true; grown; ) {
      grown = false;
      for (const [pid, above] of rows)
        if (mine.has(above) && !mine.has(pid)) {
          mine.add(pid);
          grown = true;
        }
    }
    say(rows.filter(([pid]) => pid !== parent && mine.has(pid)).reduce((sum, [, , rss]) => sum + rss, 0));
  });
}
