/**
 * The record of a film in the library: `narration/<number>.yaml`, what it is of and which text it was made from. Read from the YAML tree, written for
 * whoever has just filmed. Whether its file of captions is there is for the caller.
 *
 *     number: OV-3140
 *     revision: "A"
 *     procedure: OM-3140
 *     procedure revision: "C"
 *     model: DL-25                      (only for a film of one model)
 *     text hash: 64 hexadecimal digits
 *     address: https://films.example/ov-3140
 *     captions: narration/OV-3140.vtt
 *     passages:
 *       - check-the-drift 9 | 1f0c... | 77aa... | 90b1...      (key, hashes of voice, picture, screen)
 */
import { type YamlFile, type YamlNode, yamlGet } from '../format/index.ts';
import type { PassageHashes, Script } from './model.ts';

export interface FilmRecord {
  readonly number: string;
  readonly revision: string;
  readonly procedure: string;
  readonly procedureRevision?: string;
  readonly model?: string;
  readonly textHash: string;
  /** Where the film can be seen; a time is added as a media fragment. */
  readonly address?: string;
  /** Path in the library. */
  readonly captions?: string;
  readonly passages: readonly FilmedPassage[];
}

export interface FilmedPassage {
  readonly key: string;
  readonly hashes: PassageHashes;
}

/** Undefined with what is missing, in words. */
export function readRecord(file: YamlFile): { readonly record?: FilmRecord; readonly problems: readonly string[] } {
  const { root } = file;
  const text = (key: string): string | undefined => {
    const node = root?.kind === 'map' ? yamlGet(root, key) : undefined;
    return node?.kind === 'scalar' && node.text !== '' ? node.text : undefined;
  };
  const missing = ['number', 'procedure', 'text hash'].filter((key) => text(key) === undefined);
  if (root?.kind !== 'map' || missing.length > 0)
    return { problems: [`A record of a film must say ${missing.join(', ') || 'its number'}.`] };
  const listed = yamlGet(root, 'passages');
  const passages = listed?.kind === 'seq' ? listed.items.flatMap(passageOf) : [];
  const address = text('address');
  const problems =
    address === undefined || /^https?:\/\/[^\s"<>]+$/.test(address)
      ? []
      : [`"${address}" is no address that begins with https:// or http://.`];
  const optional = {
    procedureRevision: text('procedure revision'),
    model: text('model'),
    address: problems.length === 0 ? address : undefined,
    captions: text('captions'),
  };
  const known = Object.fromEntries(Object.entries(optional).filter(([, value]) => value !== undefined));
  const own = {
    number: text('number') ?? '',
    revision: text('revision') ?? '',
    procedure: text('procedure') ?? '',
    textHash: text('text hash') ?? '',
  };
  return { record: { ...own, ...known, passages }, problems };
}

function passageOf(node: YamlNode): FilmedPassage[] {
  if (node.kind !== 'scalar') return [];
  const [key, voice, picture, screen] = node.text.split('|').map((part) => part.trim());
  if (!key || !voice || !picture || !screen) return [];
  return [{ key, hashes: { voice, picture, screen } }];
}

type Film = Pick<FilmRecord, 'number' | 'revision' | 'address' | 'captions'>;

export function writeRecord(script: Script, film: Film): string {
  return recordText({
    ...film,
    procedure: script.number,
    ...(script.revision === undefined ? {} : { procedureRevision: script.revision }),
    ...(script.model === undefined ? {} : { model: script.model }),
    textHash: script.textHash,
    passages: script.passages,
  });
}

export function recordText(record: FilmRecord): string {
  const line = (key: string, value: string | undefined): string => (value === undefined ? '' : `${key}: ${JSON.stringify(value)}\n`);
  const head = [
    line('number', record.number),
    line('revision', record.revision),
    line('procedure', record.procedure),
    line('procedure revision', record.procedureRevision),
    line('model', record.model),
    line('text hash', record.textHash),
    line('address', record.address),
    line('captions', record.captions),
  ];
  const passages = record.passages.map(
    ({ key, hashes }) => `  - ${JSON.stringify(`${key} | ${hashes.voice} | ${hashes.picture} | ${hashes.screen}`)}\n`,
  );
  return `# Made when the film was: which text it shows. Hashes of voice, picture and screen tell what must be made again after an edit.\n${head.join('')}passages:\n${passages.join('')}`;
}
