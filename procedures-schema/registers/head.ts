/** Decodes the front matter of procedures and guides. Missing fields are absent; the schema check tells of them. */

import type { Span } from '../finding.ts';
import { type Guide, type Procedure, type YamlNode, yamlGet } from '../format/index.ts';
import { entriesOf, listOf, present, scalarsOf, textOf, wordOf, yes } from './fields.ts';
import type { GuideHead, ListedName, Measurement, ProcedureHead } from './model.ts';
import { paperIn } from './paper.ts';

const NOWHERE: Span = { start: 0, end: 0 };

export function decodeHead(tree: Procedure): ProcedureHead {
  const root = tree.front?.root;
  const text = (key: string): string | undefined => textOf(root, key);
  const span = tree.front?.span ?? NOWHERE;
  const only = listOf(root, 'only on');
  const live = yamlGet(root, 'live task');
  return {
    id: text('id') ?? '',
    title: text('title') ?? '',
    span,
    idSpan: yamlGet(root, 'id')?.span ?? span,
    titleSpan: yamlGet(root, 'title')?.span ?? span,
    models: listed(yamlGet(root, 'models')),
    options: listed(yamlGet(root, 'options')),
    symptoms: listed(yamlGet(root, 'symptoms')),
    startsWith: wordOf(root, ['live', 'closed', 'opened and locked out'] as const, 'starts with') ?? 'closed',
    tools: listed(yamlGet(root, 'tools')),
    consumables: listed(yamlGet(root, 'consumables')),
    parts: listed(yamlGet(root, 'parts')),
    protection: listed(yamlGet(root, 'protection')),
    measurements: entriesOf(yamlGet(root, 'measurements')).map(({ name, key, value }) => measurementOf(name, key.span, value)),
    requires: listed(yamlGet(root, 'requires')),
    roles: listed(yamlGet(root, 'roles')),
    ...present({
      onlyOn: only.length > 0 ? only : undefined,
      revision: text('revision'),
      date: text('date'),
      endsWith: wordOf(root, ['closed', 'opened and locked out', 'out of service'] as const, 'ends with'),
      time: text('time'),
      people: text('people'),
      audience: text('audience'),
      liveTask:
        live?.kind === 'scalar' && live.text.trim() !== ''
          ? { because: live.text.trim().replace(/^because\s+/i, ''), span: live.span }
          : undefined,
    }),
  } as ProcedureHead;
}

/** A list of names, or of maps with `name`; "none" is an empty list that was said. */
function listed(node: YamlNode | undefined): ListedName[] {
  const items = node === undefined ? [] : node.kind === 'seq' ? node.items : [node];
  return items.flatMap((item): ListedName[] => {
    if (item.kind === 'scalar') {
      const name = item.text.trim();
      return name === '' || name.toLowerCase() === 'none' ? [] : [{ name, span: item.span }];
    }
    const name = textOf(item, 'name');
    if (name === undefined) return [];
    const models = listOf(item, 'models');
    return [
      {
        name,
        span: yamlGet(item, 'name')?.span ?? item.span,
        ...present({ quantity: textOf(item, 'quantity'), note: textOf(item, 'note'), models: models.length > 0 ? models : undefined }),
      } as ListedName,
    ];
  });
}

const LIMIT_KEYS = ['lower', 'upper', 'nominal', 'tolerance'] as const;

function measurementOf(name: string, span: Span, value: YamlNode | undefined): Measurement {
  const limits = yamlGet(value, 'limits');
  const table = limits?.kind === 'scalar' ? /^table\s+#?(.+)$/i.exec(limits.text.trim())?.[1] : undefined;
  const own = limits?.kind === 'map' && entriesOf(limits).some(({ name: key }) => (LIMIT_KEYS as readonly string[]).includes(key));
  const fields = (node: YamlNode | undefined) =>
    present(
      Object.fromEntries(LIMIT_KEYS.map((key) => [key, textOf(node, key)])) as Record<(typeof LIMIT_KEYS)[number], string | undefined>,
    );
  const pass = textOf(value, 'pass');
  const fail = textOf(value, 'fail');
  return {
    name,
    span,
    quantity: textOf(value, 'quantity') ?? '',
    perModel: own ? [] : entriesOf(limits).map(({ name: model, key, value: row }) => ({ model, span: key.span, ...fields(row) })),
    ...(own ? fields(limits) : {}),
    // "limits: 5 mm ± 0.2 mm" in one scalar is a nominal value with its tolerance.
    ...(limits?.kind === 'scalar' && table === undefined && limits.text.trim() !== '' ? { nominal: limits.text.trim() } : {}),
    ...present({ at: textOf(value, 'at'), with: textOf(value, 'with'), table }),
    ...(pass !== undefined || fail !== undefined ? { sensed: { pass: pass ?? '', fail: fail ?? '' } } : {}),
  } as Measurement;
}

export function decodeGuideHead(tree: Guide): GuideHead {
  const root = tree.front?.root;
  const text = (key: string): string | undefined => textOf(root, key);
  const span = tree.front?.span ?? NOWHERE;
  return {
    id: text('id') ?? '',
    title: text('title') ?? '',
    span,
    idSpan: yamlGet(root, 'id')?.span ?? span,
    titleSpan: yamlGet(root, 'title')?.span ?? span,
    duplex: yes(root, 'duplex'),
    models: scalarsOf(yamlGet(root, 'models')).map(({ text: name }) => name.trim()),
    ...present({
      subtitle: text('subtitle'),
      revision: text('revision'),
      date: text('date'),
      language: text('language'),
      paper: paperIn(root),
      binding: wordOf(root, ['left', 'top', 'none'] as const, 'binding'),
    }),
  } as GuideHead;
}
