/** Completion in front matter and registers: fields that are not there yet, fixed words, registered names. */
import { foldText } from '../format/index.ts';
import { describeField } from '../schemas/index.ts';
import { type CompleteContext, cut } from './complete-context.ts';
import { fieldAnswer, schemaOf } from './field-choices.ts';
import type { Completion, Completions } from './model.ts';
import { ranked } from './rank.ts';
import { yamlCaret } from './yaml-caret.ts';
import { yamlScalar } from './yaml-text.ts';

export function completeYaml(from: number, { path, text, offset, library, facts }: CompleteContext): Completions {
  const place = /\.md$/i.test(path) ? 'front matter' : 'register';
  const schema = schemaOf(path);
  if (schema === undefined) return { place, items: [], more: false };
  const caret = yamlCaret(text, from, offset);
  const { note, choices } = fieldAnswer(schema, caret.path, caret.at, library, facts);
  const beside = new Set(caret.beside.map((one) => foldText(one.replace(/^["']|["']$/g, ''))));
  const colon = text[caret.replace.end] === ':';
  const fields =
    caret.at === 'value' && !(caret.path.at(-1) === 0 && note?.forms.includes('fields'))
      ? []
      : (note?.fields ?? [])
          .filter((field) => !beside.has(foldText(field)))
          .map((field): Completion => {
            const own = describeField(schema, [...caret.path, field]);
            const required = note?.required.includes(field) === true;
            return {
              kind: 'field',
              label: field,
              detail: required ? 'required' : formWords(own?.forms ?? []),
              note: own?.description ?? '',
              insert: colon ? field : `${field}:${opening(own?.forms ?? [], caret.flow, caret.indent)}`,
              replace: caret.replace,
            };
          });
  const values = choices
    .filter(({ value }) => !beside.has(foldText(value)))
    .map(({ value, detail }): Completion => {
      const scalar = /^["']/.test(value) ? value : yamlScalar(value, caret.flow);
      return {
        kind: 'value',
        label: value.replace(/^"(.*)"$/, '$1'),
        detail,
        insert: caret.at === 'key' && !colon ? `${scalar}: ` : scalar,
        replace: caret.replace,
      };
    });
  const typed = caret.typed.replace(/^["']/, '');
  return cut(
    place,
    ranked([...values, ...fields], typed, (item) => ({
      spellings: [item.label],
      weight: item.kind === 'value' ? 0 : item.detail === 'required' ? 1 : 2,
    })),
  );
}

function formWords(forms: readonly string[]): string {
  return forms.length === 0 ? 'field' : forms.join(' or ');
}

/** What follows the colon of a new field. Lists and maps open on the next line, where there is one. */
function opening(forms: readonly string[], flow: boolean, indent: number): string {
  if (flow) return ' ';
  const pad = ' '.repeat(indent + 2);
  if (forms.includes('list')) return `\n${pad}- `;
  return forms.length === 1 && forms[0] === 'fields' ? `\n${pad}` : ' ';
}
