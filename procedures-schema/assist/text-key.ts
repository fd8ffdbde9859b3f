/** A short key of a text, by which an edit knows the text it was made for. Tells changes apart; it is no seal against forgery. */

/** Length and two multiplicative hashes of the UTF-16 units, modulo the two largest primes below 2 to the 32. */
export function textKey(text: string): string {
  let a = 0;
  let b = 0;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    a = (a * 31 + code) % 4_294_967_291;
    b = (b * 65_599 + code) % 4_294_967_279;
  }
  return `${text.length.toString(36)}.${a.toString(36)}.${b.toString(36)}`;
}
