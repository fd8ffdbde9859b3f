/** Which of what was learned belongs to a font file. */
import learned from './learned.json' with { type: 'json' };
import { type LearnedFace, Letters, stampOf } from './learned-face.ts';

const faces: readonly LearnedFace[] = learned;

/** undefined for a file that nothing was learned from. */
export function lettersOf(file: Uint8Array): Letters | undefined {
  const stamp = stampOf(file);
  const face = faces.find((one) => one.stamp === stamp);
  return face === undefined ? undefined : new Letters(face);
}
