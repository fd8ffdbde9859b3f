/** Where each text was left: caret and scroll, as the editor gives them. Kept while the window lives; knows nothing of the editor. */
const places = new Map<string, unknown>();

export const leaveAt = (file: string, place: unknown): void => void places.set(file, place);
export const leftAt = (file: string): unknown => places.get(file);
