/** How the leaves are bound and printed on, and in which language the words around the writer's own stand. What guide and library say is named. */
import type { ReactNode } from 'react';
import { PRINTED_LANGUAGES } from '../../publishing/index.ts';
import { words } from '../words/words.ts';
import type { Edition, House } from '../worker/queries/queries.ts';

const BINDINGS = ['left', 'top', 'none'] as const satisfies readonly NonNullable<Edition['binding']>[];
const SIDES = ['one', 'two'] as const;

type Choice = Pick<Edition, 'binding' | 'duplex' | 'language' | 'form'>;
type Key = 'binding' | 'duplex' | 'language';

interface Props {
  readonly choice: Choice;
  readonly house: House | undefined;
  readonly put: <K extends Key>(key: K, value: Choice[K] | undefined) => void;
}

/** As BCP 47 names it where the page has no word for it. */
const languageName = (code: string): string => words.languageNames[code.toLowerCase().split('-')[0] ?? ''] ?? code;

/** What holds where nothing is chosen, and who says so. */
export const asSaid = (house: House | undefined, key: keyof House['by'], value: string): string =>
  house === undefined ? words.checking : words.asSaid[house.by[key]](value);

export function BindingChoice({ choice, house, put }: Props): ReactNode {
  const { binding, duplex, language } = choice;
  // Leaves of the paper checklist are filed singly: punched at the left, printed on both sides.
  const leaves = choice.form === 'short';
  const sides = duplex === undefined ? '' : duplex ? 'two' : 'one';
  return (
    <>
      {leaves ? null : (
        <>
          <label>
            {words.bindingEdge}
            <select
              value={binding ?? ''}
              onChange={(event) =>
                put(
                  'binding',
                  BINDINGS.find((one) => one === event.target.value),
                )
              }
            >
              <option value="">{asSaid(house, 'binding', house === undefined ? '' : words.bindings[house.binding])}</option>
              {BINDINGS.map((one) => (
                <option key={one} value={one}>
                  {words.bindings[one]}
                </option>
              ))}
            </select>
          </label>
          <label>
            {words.printedSides}
            <select value={sides} onChange={(event) => put('duplex', event.target.value === '' ? undefined : event.target.value === 'two')}>
              <option value="">{asSaid(house, 'duplex', house?.duplex ? words.sidesNames.two : words.sidesNames.one)}</option>
              {SIDES.map((one) => (
                <option key={one} value={one}>
                  {words.sidesNames[one]}
                </option>
              ))}
            </select>
          </label>
        </>
      )}
      <label>
        {words.printedLanguage}
        <select value={language ?? ''} onChange={(event) => put('language', event.target.value === '' ? undefined : event.target.value)}>
          <option value="">{asSaid(house, 'language', languageName(house?.language ?? ''))}</option>
          {PRINTED_LANGUAGES.map((code) => (
            <option key={code} value={code}>
              {languageName(code)}
            </option>
          ))}
        </select>
      </label>
      {language === undefined ? null : <p className="quiet">{words.printedLanguageSays}</p>}
    </>
  );
}
