/** `handsclear checklist`: one procedure as a data file to tick off. */
import { linksOf } from '../../procedures-schema/narration/index.ts';
import { type Checklist, checklistOf, writeChecklist } from '../../publishing/index.ts';
import { CannotRun, type Command } from '../command.ts';
import { writeWhole } from '../files.ts';
import { filmsOf } from '../films.ts';
import { modelNamed, openLibrary } from '../library.ts';
import { blocking, mustHaveEdition, notThere, procedureNamed, refuse } from '../publish.ts';

export const checklist: Command = {
  name: 'checklist',
  summary: 'write the checklist of a procedure as a JSON file',
  operands: ['<procedure>'],
  options: [
    { name: 'library', value: 'FOLDER', help: 'the library it stands in (here, if not given)' },
    { name: 'to', value: 'FILE', help: 'the JSON file to write' },
    { name: 'model', value: 'M', help: 'an edition for one model; labels stay those of the full one' },
    { name: 'draft', help: 'write it in spite of errors, marked "DRAFT: NOT FOR FIELD USE"' },
  ],
  about:
    'Checks the library, then writes every step of the procedure with its label, notices, limits, branches and what is to be written in. The file keeps to procedures-schema/schemas/checklist.schema.json. Exit 0: written. Exit 1: errors stand in the way. Exit 2: it could not run.',
  examples: [
    { line: 'handsclear checklist OM-3140 --library sample-procedures --to lip.json', does: 'all models' },
    { line: 'handsclear checklist OM-3140 --library sample-procedures --to lip.json --model DL-25', does: 'one model' },
  ],
  async run({ operands, values, flags }, io) {
    const asked = operands[0] as string;
    if (values.to === undefined) throw new CannotRun('checklist wants --to FILE: where the JSON goes.');
    const checked = await openLibrary(values.library ?? '.', io);
    const procedure = procedureNamed(checked, asked, io);
    if (procedure === undefined) throw notThere(checked.facts, asked, 'procedure');
    const model = values.model === undefined ? undefined : modelNamed(checked.facts, values.model);
    mustHaveEdition(procedure, checked.facts, model);
    const draft = flags.has('draft');
    const found = blocking(checked, new Set([procedure.file]));
    if (found.length > 0 && !draft) {
      refuse(checked, found, asked, values.to, io);
      return 1;
    }
    const films = linksOf(await filmsOf(checked.disk, io), checked.facts, model);
    const made = checklistOf(procedure, {
      library: checked.facts,
      figures: new Map(),
      draft,
      films,
      ...(model === undefined ? {} : { model }),
    });
    writeWhole({ cwd: io.cwd, library: checked.disk.root }, values.to, writeChecklist(made), 'JSON');
    io.out(`${values.to}: ${stepsIn(made)} steps${draft ? ', draft' : ''}.\n`);
    return 0;
  },
};

const stepsIn = (made: Checklist): number =>
  made.sections.reduce((sum, { items }) => sum + items.filter((item) => item.kind === 'step').length, 0);
