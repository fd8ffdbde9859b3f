/** The nearest right names for a wrong one, for messages. Damerau-Levenshtein (adjacent swaps count one), cut off early. */

export function nearestNames(name: string, candidates: readonly string[], limit = 3): readonly string[] {
  const wanted = name.toLowerCase();
  const most = Math.max(1, Math.floor(wanted.length / 3));
  return candidates
    .map((candidate) => ({ candidate, distance: distance(wanted, candidate.toLowerCase(), most) }))
    .filter((entry) => entry.distance <= most)
    .sort((a, b) => a.distance - b.distance || (a.candidate < b.candidate ? -1 : a.candidate > b.candidate ? 1 : 0))
    .slice(0, limit)
    .map((entry) => entry.candidate);
}

function distance(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1];
      let best = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) best = Math.min(best, (before[j - 2] ?? 0) + 1);
      row.push(best);
    }
    if (Math.min(...row) > most) return most + 1;
    before = last;
    last = row;
  }
  return last[b.length] ?? most + 1;
}
