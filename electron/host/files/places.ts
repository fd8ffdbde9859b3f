/** Where in a library which files may lie: one table for reading, watching and writing. Paths have forward slashes. */

/** Texts that are read, checked and kept in step with the disk. */
export const isText = (own: string): boolean =>
  /^(library\.yaml|registers\/[^/]+\.ya?ml|review\/[^/]+\.yaml|narration\/.+\.ya?ml|(procedures|guides)\/.+\.md)$/i.test(own);

/** Texts that documents are read with, and documents. */
export const isRead = (own: string): boolean => isText(own) && !/^(review|narration)\//i.test(own);

/** Pictures, captions and what belongs to them: known by name, read when asked for. */
export const isOther = (own: string): boolean => /^(figures|narration)\/.+/i.test(own);

/** Folders that are looked into; everything else in a library is left alone. */
export const isFolder = (own: string): boolean => /^(registers|review|procedures|guides|figures|narration)(\/|$)/i.test(own);

/** Texts that may be written. */
export const isWritable = (own: string): boolean => isText(own) || /^narration\/.+\.(md|yaml|vtt|srt)$/i.test(own);
