/** `handsclear print`: a bound guide or a procedure as a PDF file. */
import { fontsAsAsked } from '../../electron/host/files/index.ts';
import { linksOf } from '../../procedures-schema/narration/index.ts';
import {
  attachmentsOf,
  foldedChoice,
  guideBook,
  heldBy,
  isFor,
  keptRevisions,
  leftOut,
  printBook,
  printNotes,
  printSheets,
  procedureBook,
  shortGuide,
  shortProcedure,
  UNITS_EDITIONS,
  type UnitsEdition,
} from '../../publishing/index.ts';
import { CannotRun, type Command } from '../command.ts';
import { figuresOf } from '../figures.ts';
import { writeWhole } from '../files.ts';
import { filmsOf } from '../films.ts';
import { issueBefore } from '../issue-before.ts';
import { leafChoice, leafOptions } from '../leaf.ts';
import { modelNamed, openLibrary } from '../library.ts';
import { pressChoice, pressOptions } from '../press.ts';
import { blocking, guideNamed, mustHaveEdition, notThere, procedureNamed, refuse } from '../publish.ts';
import { notesText } from '../report/notes.ts';
import { keepYoungGenerationSmall } from '../young-generation.ts';

export const print: Command = {
  name: 'print',
  summary: 'print a guide or procedure to a PDF file',
  operands: ['<guide|procedure>'],
  options: [
    { name: 'library', value: 'FOLDER', help: 'the library it stands in (here, if not given)' },
    { name: 'to', value: 'FILE', help: 'the PDF file to write' },
    {
      name: 'edition',
      value: 'full|short',
      choices: ['full', 'short'],
      help: 'the whole text, or the paper checklist: one or two sheets a procedure, to be ticked off',
    },
    ...leafOptions,
    { name: 'model', value: 'M', help: 'an edition for one model; labels stay those of the full one' },
    {
      name: 'units',
      value: UNITS_EDITIONS.join('|'),
      choices: UNITS_EDITIONS,
      help: 'an edition in other units than the house prints; values that stand in one system only stay as they are',
    },
    {
      name: 'changed-since',
      value: 'FOLDER|REVISION',
      help: 'the library as it was issued before, in a folder or in the history of this one: what changed gets a bar in the margin, on the checklist too',
    },
    { name: 'large-type', help: 'the edition in large type, for bad light' },
    { name: 'obsolete', help: 'marked "OBSOLETE: DO NOT USE" on every page' },
    {
      name: 'sign-off',
      help: 'boxes at the end of each procedure: machine, name, initials, date, what was found and left; the library can ask for them',
    },
    { name: 'no-sign-off', help: 'without these boxes, where the library asks for them' },
    { name: 'fillable', help: 'a form: boxes for values, ticks and sign-off can be filled in on the screen' },
    { name: 'attach', help: 'carry the text of each procedure and its checklist as data inside the PDF' },
    ...pressOptions,
    { name: 'draft', help: 'print in spite of errors, with "DRAFT: NOT FOR FIELD USE" on every page' },
  ],
  about:
    'Checks the library, then prints the guide or procedure with that document number. The same library gives the same bytes. Exit 0: printed. Exit 1: errors stand in the way. Exit 2: it could not run.',
  examples: [
    { line: 'handsclear print OM-8010 --library sample-procedures --to guide.pdf', does: 'a bound guide' },
    {
      line: 'handsclear print OM-3140 --library sample-procedures --to lip.pdf --model DL-25 --paper letter',
      does: 'one procedure, for one model',
    },
    {
      line: 'handsclear print OM-8010 --library sample-procedures --to own.pdf --paper "160 x 230 mm"',
      does: 'the guide on paper of another size',
    },
    { line: 'handsclear print OM-3140 --library sample-procedures --to leaf.pdf --edition short', does: 'its paper checklist' },
    {
      line: 'handsclear print OM-8010 --library sample-procedures --to new.pdf --changed-since sample-procedures',
      does: 'the guide, with bars beside what is not so in another state of the library',
    },
    {
      line: 'handsclear print OM-8010 --library sample-procedures --to inch.pdf --units inch-first',
      does: 'the guide with inch units first',
    },
    {
      line: 'handsclear print OM-3140 --library sample-procedures --to form.pdf --edition short --fillable --attach',
      does: 'the checklist as a form, with its text and data inside',
    },
    {
      line: 'handsclear print OM-8010 --library sample-procedures --to booklet.pdf --booklet --sheet a3 --signature 4 --cut-marks',
      does: 'the guide on A3 sheets, four folded into one another, to be sewn',
    },
    {
      line: 'handsclear print OM-3140 --library sample-procedures --to pad.pdf --binding top --two-sided',
      does: 'one procedure on both sides, for a pad bound at the top',
    },
    { line: 'handsclear print OM-3140 --library sample-procedures --to draft.pdf --draft', does: 'a draft to mark up' },
  ],
  async run(given, io) {
    const { operands, values, flags } = given;
    const press = pressChoice(given);
    const leaf = leafChoice(given);
    const full = ['large-type', 'sign-off', 'no-sign-off'].find((name) => flags.has(name));
    if (values.edition === 'short' && full !== undefined)
      throw new CannotRun(
        `--${full} is for the full edition.${full?.endsWith('sign-off') ? ' The paper checklist always has its boxes.' : ''}`,
      );
    if (flags.has('sign-off') && flags.has('no-sign-off')) throw new CannotRun('print is either --sign-off or --no-sign-off.');
    const asked = operands[0] as string;
    if (values.to === undefined) throw new CannotRun('print wants --to FILE: where the PDF goes.');
    keepYoungGenerationSmall();
    const checked = await openLibrary(values.library ?? '.', io);
    const guide = guideNamed(checked, asked, io);
    const procedure = guide === undefined ? procedureNamed(checked, asked, io) : undefined;
    const document = guide ?? procedure;
    if (document === undefined) throw notThere(checked.facts, asked, 'guide or procedure');
    const model = values.model === undefined ? undefined : modelNamed(checked.facts, values.model);
    mustHaveEdition(document, checked.facts, model);
    const held = procedure === undefined ? heldBy(guide as NonNullable<typeof guide>, { library: checked.facts }) : [procedure];
    const found = blocking(checked, new Set([document.file, ...held.map(({ file }) => file)]));
    const draft = flags.has('draft');
    if (found.length > 0 && !draft) {
      refuse(checked, found, asked, values.to, io);
      return 1;
    }
    const since = values['changed-since'];
    const figures = await figuresOf(checked.disk);
    const films = linksOf(await filmsOf(checked.disk, io), checked.facts, model);
    const input = {
      library: checked.facts,
      ...(films.size === 0 ? {} : { films }),
      figures,
      draft,
      ...(model === undefined ? {} : { model }),
      ...(values.units === undefined ? {} : { units: values.units as UnitsEdition }),
      ...(since === undefined ? {} : await issueBefore(since, checked, guide === undefined ? held : [guide, ...held], figures, io)),
    };
    const choice = {
      ...foldedChoice(leaf, press),
      ...(flags.has('large-type') ? { large: true } : {}),
      ...(flags.has('obsolete') ? { obsolete: true } : {}),
      ...(flags.has('sign-off') || flags.has('no-sign-off') ? { signOff: flags.has('sign-off') } : {}),
    };
    const make =
      values.edition === 'short' ? { guide: shortGuide, procedure: shortProcedure } : { guide: guideBook, procedure: procedureBook };
    const book =
      guide === undefined ? make.procedure(procedure as NonNullable<typeof procedure>, input, choice) : make.guide(guide, input, choice);
    const holds = held.filter((facts) => isFor(facts, input));
    const extras = {
      fillable: flags.has('fillable'),
      ...(flags.has('attach') ? { attachments: attachmentsOf(holds, guide, input, book.language) } : {}),
    };
    const fonts = fontsAsAsked();
    const sheets = press === undefined ? undefined : printSheets(book, fonts, press);
    const printed = sheets ?? printBook(book, fonts, extras);
    const missing = guide && leftOut(guide, input);
    if (missing !== undefined) io.err(`${missing}\n`);
    const notes = [...printNotes(printed.notes, checked.facts), ...keptRevisions(book, input)];
    io.err(notesText(notes, checked.facts, asked, io));
    writeWhole({ cwd: io.cwd, library: checked.disk.root }, values.to, printed.bytes, 'PDF');
    const on = sheets === undefined ? '' : ` on ${sheets.sides} sides`;
    io.out(`${values.to}: ${printed.pages} pages${on}${draft ? ', draft' : ''}.\n`);
    return 0;
  },
};
