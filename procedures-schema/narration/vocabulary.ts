/** Tokens as small numbers with their weights, so that an alignment compares integers. What two tokens are worth beside each other is decided here. */
import type { Token, TokenKind } from './normal-words.ts';
import { HOMOPHONES, soundKey } from './sound.ts';

/** Words that stand in every sentence tell little about which one it is. */
const COMMON: ReadonlySet<string> = new Set(
  'the a an and or of to at by for from with it its is are be must that this them they you your their then so as if'.split(' '),
);
/** Small words that turn a step into its opposite. */
const TURNING: ReadonlySet<string> = new Set('on off in out up down not no'.split(' '));
/** Gain of a token found where it belongs; tenths of a telling word. */
const GAIN: Readonly<Record<TokenKind, number>> = { word: 10, number: 10, unit: 6, name: 12, label: 4 };
const COMMON_GAIN = 2;
const TURNING_GAIN = 5;
/** Share of the gain for a word that sounds like it, in tenths. */
const SOUNDS_LIKE = 6;
/** A token left out, or another heard in its place. */
const LOSS = 4;
const COMMON_LOSS = 1;
const TURNING_LOSS = 2;
/** Another word in its place costs a little more than none, so that a fit does not reach out over foreign words. */
const FOREIGN = 1;
/** Another value, another unit: the place is right, the words have changed. */
const OTHER_VALUE = 1;

export class Vocabulary {
  private readonly ids = new Map<string, number>();
  private readonly sounds = new Map<string, number>();
  /** By id. */
  readonly gain: number[] = [];
  readonly loss: number[] = [];
  private readonly sound: number[] = [];
  private readonly kind: TokenKind[] = [];
  private readonly keys: string[] = [];

  idOf({ kind, key }: Token): number {
    const known = this.ids.get(key);
    if (known !== undefined) return known;
    const id = this.gain.length;
    this.ids.set(key, id);
    const common = kind === 'word' && COMMON.has(key);
    const turning = kind === 'word' && TURNING.has(key);
    this.gain.push(turning ? TURNING_GAIN : common ? COMMON_GAIN : GAIN[kind]);
    this.loss.push(turning ? TURNING_LOSS : common ? COMMON_LOSS : LOSS);
    this.kind.push(kind);
    this.keys.push(key);
    const sound = kind === 'word' && !common && !turning ? soundKey(key) : '';
    this.sound.push(sound === '' ? 0 : this.soundOf(sound));
    return id;
  }

  private soundOf(key: string): number {
    const known = this.sounds.get(key);
    if (known !== undefined) return known;
    this.sounds.set(key, this.sounds.size + 1);
    return this.sounds.size;
  }

  /** Worth of hearing `heard` where `said` stands in the script. */
  worth(said: number, heard: number): number {
    if (said === heard) return this.gain[said] as number;
    const sound = this.sound[said] as number;
    if (sound !== 0 && sound === this.sound[heard]) return ((this.gain[said] as number) * SOUNDS_LIKE) / 10;
    const [a, b] = [this.kind[said], this.kind[heard]];
    if (a === b && (a === 'number' || a === 'unit' || a === 'name')) return -OTHER_VALUE;
    if (a === 'number' && HOMOPHONES[this.keys[said] as string]?.includes(this.keys[heard] as string))
      return ((this.gain[said] as number) * SOUNDS_LIKE) / 10;
    return -(this.loss[said] as number) - FOREIGN;
  }

  /** The same as a table for the ids known so far, a row for each of `said`: filled once, read millions of times. */
  table(said: readonly number[]): ReadonlyMap<number, Int8Array> {
    const size = this.gain.length;
    const out = new Map<number, Int8Array>();
    for (const one of said) {
      if (out.has(one)) continue;
      const row = new Int8Array(size);
      for (let heard = 0; heard < size; heard += 1) row[heard] = this.worth(one, heard);
      out.set(one, row);
    }
    return out;
  }
}
