/** Where the record of a film goes: into film.yaml, unless somebody has worked on the one that is there; then beside it. */
import { isRecordAsWritten } from '../procedures-schema/narration/index.ts';
import { readIfThere } from './files.ts';

/** The name of the file in the folder `to`, and what is to be told of it. */
export function recordPlace(cwd: string, to: string, text: string): { readonly name: string; readonly told?: string } {
  const there = readIfThere(cwd, `${to}/film.yaml`);
  if (there === undefined || there === '' || there === text || isRecordAsWritten(there)) return { name: 'film.yaml' };
  return {
    name: 'film-new.yaml',
    told: `${to}/film.yaml was worked on since it was written, so it was left as it is. The new record is ${to}/film-new.yaml: take over from it what is wanted, or put it in the place of film.yaml.`,
  };
}
