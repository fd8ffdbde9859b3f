/**
 * Whether a document has an edition for one model at all. What is not written for the model is refused, because the few steps that name no model would
 * stand there as if they were all of it. Leaves to `edition.ts` what of a document applies.
 */
import { invariant, type LibraryFacts, type ProcedureFacts } from '../../procedures-schema/index.ts';
import type { ComposeInput } from './scope.ts';

type Guide = LibraryFacts['guides'][number];
type Asked = Pick<ComposeInput, 'library' | 'model'>;

const modelsIn = ({ machines }: ProcedureFacts): readonly string[] => [...new Set(machines.map(({ variant }) => variant.model))];

export const isFor = (facts: ProcedureFacts, { model }: Pick<Asked, 'model'>): boolean =>
  model === undefined || modelsIn(facts).includes(model);

/** Why there is no edition for the model asked for; undefined: there is one. */
export function noEdition(document: ProcedureFacts | Guide, asked: Asked): string | undefined {
  const { model } = asked;
  if (model === undefined) return undefined;
  const held = 'machines' in document ? [document] : heldBy(document, asked);
  if (held.some((facts) => isFor(facts, asked))) return undefined;
  const models = asked.library.registers.models
    .map(({ name }) => name)
    .filter((name) => held.some((facts) => isFor(facts, { model: name })));
  const said = 'machines' in document ? `${document.head.id} is not for ${model}` : `${document.head.id} holds no procedure for ${model}`;
  return `${said}. It is for: ${models.join(', ') || 'no registered model'}.`;
}

/** For composers: whoever asks has asked `noEdition` first. */
export function assertEdition(document: ProcedureFacts | Guide, asked: Asked): void {
  const refused = noEdition(document, asked);
  invariant(refused === undefined, refused ?? '');
}

/** The procedures of a guide, each once, in its order. */
export function heldBy(guide: Guide, { library }: Pick<Asked, 'library'>): readonly ProcedureFacts[] {
  const numbers = [...new Set(guide.tree.parts.flatMap((part) => part.entries.map(({ document }) => document)))];
  return numbers.flatMap((number) => library.procedures.find(({ head }) => head.id === number) ?? []);
}

/** What an edition of a guide for one model does not hold, in a sentence; undefined: it holds everything. */
export function leftOut(guide: Guide, asked: Asked): string | undefined {
  const numbers = heldBy(guide, asked).flatMap((facts) => (isFor(facts, asked) ? [] : [facts.head.id]));
  return numbers.length === 0 ? undefined : `Left out, because not written for ${asked.model}: ${numbers.join(', ')}.`;
}
