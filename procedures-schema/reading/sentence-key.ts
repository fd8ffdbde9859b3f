/** A short key of a step's words, by which a reading said outright is bound to them (F14). Tells changes apart; it is no seal. */

/** Case and spaces do not matter, every other character does. Seven letters or digits. */
export function sentenceKey(text: string): string {
  const folded = text.toLowerCase().replace(/\s+/g, ' ').trim();
  // The 32-bit offset and prime of FNV-1a (Fowler, Noll, Vo; RFC 9923), over UTF-16 units.
  let hash = 0x811c9dc5;
  for (let at = 0; at < folded.length; at++) hash = Math.imul(hash ^ folded.charCodeAt(at), 0x01000193);
  return (hash >>> 0).toString(36).padStart(7, '0');
}
