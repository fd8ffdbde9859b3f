/** The front matter as a form: each field by itself, changed in the text as soon as it is left. Comments and order of the text stay. */
import { type ReactNode, useEffect, useState } from 'react';
import type { FieldValue, FormField, ListLine, MeasurementLine } from '../../procedures-schema/assist/index.ts';
import { findingsOf } from '../parts/findings.tsx';
import { OverSheet } from '../parts/over-sheet.tsx';
import { useAnswer } from '../state/answer.ts';
import { say, shown } from '../state/shown.ts';
import { change, core } from '../state/workspace.ts';
import { words } from '../words/words.ts';

export function FrontSheet(): ReactNode {
  const { file } = shown.usePick('file', 'findings', 'between');
  const form = useAnswer('form', file === undefined ? undefined : { file, findings: findingsOf(file) });
  const put = async (key: string, value: FieldValue): Promise<void> => {
    if (file === undefined) return;
    const edits = await core.ask('formEdits', { file, key, value }).catch((error: Error) => say(error.message, true));
    if (edits && edits.length > 0) change(key, [{ path: file, edits }]);
  };
  return (
    <OverSheet title={words.frontMatter}>
      {form === undefined ? <p className="quiet">{words.onlyProcedures}</p> : null}
      {form?.messages.map(({ text }) => (
        <p key={text} className="wrong">
          {text}
        </p>
      ))}
      {form?.fields.map((field) => (
        <fieldset key={field.key} className={field.present ? 'form-field' : 'form-field form-absent'}>
          <legend>
            {field.key} {field.required ? <span className="quiet">{words.required1}</span> : null}
          </legend>
          <p className="quiet">{field.description}</p>
          <Field field={field} put={(value) => void put(field.key, value)} />
          {field.messages.map(({ text }) => (
            <p key={text} className="wrong">
              ■ {text}
            </p>
          ))}
        </fieldset>
      ))}
    </OverSheet>
  );
}

interface FieldProps {
  readonly field: FormField;
  readonly put: (value: FieldValue) => void;
}

function Field({ field, put }: FieldProps): ReactNode {
  const choices = `choices ${field.key}`;
  const list = (
    <datalist id={choices}>
      {field.choices.map(({ value: text }) => (
        <option key={text} value={text} />
      ))}
    </datalist>
  );
  if (field.kind === 'choice' && !field.open)
    return (
      <select
        aria-label={field.key}
        value={field.text}
        onChange={(event) => put(event.target.value === '' ? undefined : event.target.value)}
      >
        <option value="" />
        {[...new Set([field.text, ...field.choices.map(({ value: text }) => text)])]
          .filter((text) => text !== '')
          .map((text) => (
            <option key={text}>{text}</option>
          ))}
      </select>
    );
  if (field.kind === 'text' || field.kind === 'choice')
    return (
      <>
        <LeftInput label={field.key} value={field.text} list={choices} put={(text) => put(text === '' ? undefined : text)} />
        {list}
      </>
    );
  if (field.kind === 'list') return <Lines field={field} put={put} choices={choices} list={list} />;
  return <Measurements field={field} put={put} />;
}

/** Kept while typed in, given when left: half a name is nothing to check. */
function LeftInput(props: {
  readonly label: string;
  readonly value: string;
  readonly list?: string;
  readonly put: (text: string) => void;
}): ReactNode {
  const { label, value, list, put } = props;
  const [text, setText] = useState(value);
  useEffect(() => setText(value), [value]);
  return (
    <input
      aria-label={label}
      list={list}
      value={text}
      onChange={(event) => setText(event.target.value)}
      onBlur={() => {
        if (text.trim() !== value) put(text.trim());
      }}
      onKeyDown={(event) => {
        if (event.key === 'Enter' && text.trim() !== value) put(text.trim());
      }}
    />
  );
}

function Lines({ field, put, choices, list }: FieldProps & { readonly choices: string; readonly list: ReactNode }): ReactNode {
  const { lines } = field;
  const with_ = (index: number, line: ListLine | undefined): void => {
    const next = lines.flatMap((one, at) => (at === index ? (line ? [line] : []) : [one]));
    put(index === lines.length && line ? [...lines, line] : next);
  };
  const row = (line: ListLine | undefined, index: number): ReactNode => (
    <li key={index} className="form-line">
      <LeftInput
        label={`${field.key} ${index + 1}`}
        value={line?.name ?? ''}
        list={choices}
        put={(name) => with_(index, name === '' ? undefined : { ...line, name })}
      />
      {line ? (
        <>
          <Beside line={line} listed={field.listed} put={(next) => with_(index, next)} />
          <button type="button" aria-label={`${words.takeAway} ${line.name}`} onClick={() => with_(index, undefined)}>
            −
          </button>
        </>
      ) : null}
    </li>
  );
  return (
    <>
      {field.none ? <p>none</p> : null}
      <ul>{[...lines, undefined].map(row)}</ul>
      {list}
    </>
  );
}

const BESIDE = ['quantity', 'models', 'note'] as const;

/** What a line says besides its name; what it does not say yet is asked for when somebody wants to say it. */
function Beside({
  line,
  listed,
  put,
}: {
  readonly line: ListLine;
  readonly listed: boolean;
  readonly put: (line: ListLine) => void;
}): ReactNode {
  const [more, setMore] = useState(false);
  const shownParts = BESIDE.filter((part) => more || line[part] !== undefined);
  const given = (part: (typeof BESIDE)[number], text: string): void => {
    const { [part]: _, ...rest } = line;
    const models = text.split(',').flatMap((name) => (name.trim() === '' ? [] : [name.trim()]));
    put(text === '' ? rest : part === 'models' ? { ...rest, models } : { ...rest, [part]: text });
  };
  return (
    <>
      {shownParts.map((part) => (
        <span key={part} className="field">
          <span className="quiet">{words.besideName[part]}</span>
          <LeftInput
            label={`${line.name}: ${words.besideName[part]}`}
            value={(part === 'models' ? line.models?.join(', ') : line[part]) ?? ''}
            put={(text) => given(part, text)}
          />
        </span>
      ))}
      {listed && shownParts.length < BESIDE.length ? (
        <button type="button" aria-label={words.sayMoreOf(line.name)} onClick={() => setMore(true)}>
          …
        </button>
      ) : null}
    </>
  );
}

const PARTS = ['name', 'quantity', 'at', 'with', 'pass', 'fail'] as const;

function Measurements({ field, put }: FieldProps): ReactNode {
  const lines = field.measurements;
  const with_ = (index: number, line: MeasurementLine): void => put(lines.map((one, at) => (at === index ? line : one)));
  return (
    <ul>
      {lines.map((line, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the order is what tells two lines without a name apart
        <li key={index} className="form-line">
          {PARTS.filter((part) => part === 'name' || part === 'quantity' || line[part] !== undefined).map((part) => (
            <span key={part} className="field">
              <span className="quiet">{words.measured[part]}</span>
              <LeftInput label={`${line.name} ${part}`} value={line[part] ?? ''} put={(text) => with_(index, { ...line, [part]: text })} />
            </span>
          ))}
          {typeof line.limits === 'string' ? (
            <span className="field">
              <span className="quiet">{words.limitsWord}</span>
              <LeftInput
                label={`${line.name} ${words.limitsWord}`}
                value={line.limits}
                put={(text) => with_(index, { ...line, limits: text })}
              />
            </span>
          ) : null}
          <button
            type="button"
            aria-label={`${words.takeAway} ${line.name}`}
            onClick={() => {
              const left = lines.filter((_, at) => at !== index);
              put(left.length === 0 ? undefined : left);
            }}
          >
            −
          </button>
        </li>
      ))}
    </ul>
  );
}
