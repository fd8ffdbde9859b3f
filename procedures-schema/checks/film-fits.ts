/** A film in the library shows its procedure as it is now. What has come apart was reckoned from the hashes in its record. */
import { yamlGet } from '../format/index.ts';
import type { FilmFacts, LibraryCheck } from './check.ts';

const record = (procedure: string, hash: string): string => `number: FV-100\nprocedure: ${procedure}\ntext hash: ${hash}\n`;
/** Of the fixture's procedure as it is spoken; it changes with every word of the script. */
const TODAY = 'ac6dec6159be94645bf10a89fbd7a670589a88bf82d644d3178aeb904ba9c18f';
const EARLIER = '4d1f0c2ab5e7936890ce41d2f7b3a86511f09e7cd42b8365a7e0f1c93d5b6428';

export const filmFits: LibraryCheck = {
  id: 'film-fits',
  scope: 'library',
  severity: 'warning',
  question: 'Does every film in the library still show its procedure as it is written?',
  why: 'Who follows the film does what the procedure said when it was filmed.',
  source: 'design: a change of the text names what of its film must be made again',
  cases: [
    {
      name: 'a film of an earlier text',
      finds: 1,
      files: { 'narration/FV-100.yaml': record('FX-100', `${EARLIER}\n           ^^^^`) },
    },
    { name: 'a film of the text of today', finds: 0, files: { 'narration/FV-100.yaml': record('FX-100', TODAY) } },
    { name: 'a film of a procedure that is not here', finds: 1, files: { 'narration/FV-100.yaml': record('FX-700', EARLIER) } },
  ],
  *run({ films }) {
    for (const film of films) {
      const { file, wrong, standing } = film;
      const whole = file.root?.span ?? { start: 0, end: 0 };
      const at = (key: string) => (file.root?.kind === 'map' ? yamlGet(file.root, key)?.span : undefined) ?? whole;
      const place = { file: file.source.path, span: at(PLACE[standing]) };
      for (const message of wrong) yield { ...place, span: whole, message, expected: 'a record as handsclear narrate writes it' };
      if (standing === 'no procedure')
        yield {
          ...place,
          message: `${film.procedure}, which the film ${film.number} shows, is not in this library.`,
          actual: film.procedure,
        };
      if (standing === 'no model')
        yield {
          ...place,
          message: `The film ${film.number} is for ${film.model}, which ${film.procedure} is not for.`,
          actual: film.model,
        };
      if (standing === 'changed')
        yield {
          ...place,
          ...(onlyCaptions(film) ? { severity: 'advice' } : {}),
          message: `${film.procedure} has changed since the film ${film.number} was made: ${tasks(film).join('; ')}.`,
          expected: 'the film made again there, and a new record of it',
        };
    }
  },
};

const PLACE = {
  fits: 'text hash',
  changed: 'text hash',
  'no procedure': 'procedure',
  'no model': 'model',
  unread: 'number',
} as const satisfies Readonly<Record<FilmFacts['standing'], string>>;

const onlyCaptions = ({ again, gone, moved }: FilmFacts): boolean => again.film.length + again.voice.length + gone + moved === 0;

const passages = (count: number): string => (count === 1 ? 'one passage' : `${count} passages`);

function tasks({ again, gone, moved }: FilmFacts): string[] {
  const chapters = (task: string, titles: readonly string[]): string[] =>
    titles.length === 0 ? [] : [`${task} again ${titles.map((title) => `"${title}"`).join(', ')}`];
  return [
    ...chapters('film', again.film),
    ...chapters('voice', again.voice),
    ...chapters('caption', again.caption),
    ...(gone === 0 ? [] : [`cut out ${passages(gone)} that the text no longer has`]),
    ...(moved === 0 ? [] : [`move ${passages(moved)} to where the text has them`]),
  ];
}
