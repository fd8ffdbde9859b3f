/** What is used of a package that has no types. */
declare module 'nspell' {
  interface Speller {
    correct(word: string): boolean;
    suggest(word: string): readonly string[];
    add(word: string): unknown;
  }
  export default function nspell(aff: string, dic: string): Speller;
}
