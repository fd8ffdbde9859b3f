export { insertSteps, type NewSteps } from './insert-steps.ts';
export { labelPath, letters, roman, sameLabel } from './label-text.ts';
export { labelsOf } from './labels.ts';
export type * from './model.ts';
export { insertAfter, removeStep, renumber } from './renumber.ts';
export { resolveReference, resolveTarget } from './resolve.ts';
export { typedReferences } from './typed-references.ts';
