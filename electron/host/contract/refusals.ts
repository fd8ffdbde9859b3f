/**
 * Every sentence in which the host refuses something, by name and with its values, in English. A refusal crosses to the page as names and values, and the
 * page says it in its own language; the command line and whoever else asks get these words.
 */

/** Codes of the system's faults that people can do something about, in words behind "It could not be written:". */
const FAULTS: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EACCES: 'permission is denied',
  EPERM: 'permission is denied',
  EBUSY: 'another program holds the file',
  EROFS: 'the disk can only be read',
  EIO: 'the disk reports a fault',
  EDQUOT: 'your share of the disk is used up',
  EMFILE: 'too many files are open',
  ENAMETOOLONG: 'the name is too long for this disk',
};
/** And of reading, behind "it cannot be read:". */
const UNREAD: Readonly<Record<string, string>> = {
  EACCES: 'permission denied',
  EPERM: 'permission denied',
  ENOENT: 'it is not there',
  ELOOP: 'it leads back to itself',
  EISDIR: 'it is a folder',
  EIO: 'the disk reports a fault',
  EBUSY: 'another program holds it',
  EMFILE: 'too many files are open',
  '': 'unknown reason',
};

export const isFault = (code: string): boolean => Object.hasOwn(FAULTS, code);

export const refusalsInEnglish = {
  // Of the program's own parts to each other; nobody sees them unless one is wrong.
  odd: (sentence: string) => sentence,
  failed: (method: string, why: string) => `The program failed at ${method}: ${why}`,
  silent: () => 'Handsclear’s own service does not answer. Your text is still in this window; start Handsclear again and save.',
  shutOut: () =>
    'This window is no longer let in: most likely the cookies of the browser were deleted. Your text is still in this window; copy what is not saved, start Handsclear again, and use the address that it shows.',
  tooMuch: (megabytes: string) =>
    `This is more than the ${megabytes} MB that can be taken in one go. Your text is still in this window; save fewer files at a time, or a smaller picture.`,

  // Libraries and folders.
  notOpen: () => 'That library is not open.',
  wholePath: () => 'A library is named by its whole path.',
  notLibrary: (folder: string) =>
    `"${folder}" is not a library: it has no library.yaml. Choose the folder that holds library.yaml, registers and procedures.`,
  noDialog: () => 'This browser has no dialog for folders; choose from the list.',
  noFolder: (folder: string) => `There is no folder "${folder}".`,
  folderUnread: (folder: string) => `"${folder}" cannot be read.`,
  folderOutside: (folder: string) => `"${folder}" lies outside your own folders. Start Handsclear with that folder to open it.`,
  noFolderName: (name: string) => `"${name}" is no name for a folder.`,
  publisher: () => 'A library needs the name of its publisher, in one short line.',
  notEmpty: (folder: string) => `"${folder}" is there already and is not empty. Choose another name.`,

  // Files of a library that were not read.
  folderShut: (code: string) => `The folder cannot be read: ${UNREAD[code] ?? code}.`,
  folderDeep: (levels: string) => `The folder lies more than ${levels} levels deep.`,
  manyFiles: (most: string) => `The library holds more than ${most} files; the rest was not read.`,
  linkOut: () => 'This is a link to a place outside the library, and was not read.',
  linkNowhere: (code: string) => `This link leads nowhere: ${UNREAD[code] ?? code}.`,
  fileLong: (megabytes: string) => `The file is ${megabytes} MB long and was not read.`,
  fileDamaged: (byte: string) => `The file is not UTF-8 text: the byte ${byte} means nothing here.`,
  fileUtf16: () => 'The file is UTF-16 text and was not read.',
  fileNoText: () => 'The file is not text and was not read.',
  fileShut: (code: string) => `The file cannot be read: ${UNREAD[code] ?? code}.`,

  // Names that not every system can hold.
  nameLong: () => 'It is too long.',
  nameHalf: () => 'It holds half a character.',
  nameLetter: () => 'It holds a letter that not every system allows.',
  nameSlash: () => 'It begins or ends with a slash, or has two in a row.',
  nameHoldsSlash: () => 'It holds a slash.',
  nameDot: () => 'A part of it begins with a dot.',
  nameEnd: () => 'A part of it ends with a dot or a space.',
  nameDevice: (part: string) => `"${part}" is a device on Windows.`,
  namePartLong: () => 'A part of it is too long.',

  // Places in a library.
  noPlace: (path: string) => `"${path}" is no place in a library where this may be written.`,
  leadsOut: (path: string) => `"${path}" leads out of the library by a link.`,
  linkElsewhere: (path: string, to: string) => `"${path}" is a link to "${to}", where this may not be written.`,
  thereAlready: (path: string) => `${path} is there already; nothing was renamed. Choose another name.`,
  libraryFile: () => 'Without library.yaml the folder is no library; it was not removed.',

  // Figures.
  noFigure: (path: string) => `${path} is not there, is too large, or lies outside the library.`,
  otherFigure: (path: string) => `${path} is another figure of that name. Give this one another name.`,
  figureNotOurs: (path: string) => `${path} was not added by this window. It stays in the library.`,
  figureTwice: (path: string) => `${path} was put in by another window too. It stays in the library.`,
  figureChanged: (path: string) => `${path} was changed since it was added.`,
  usesUnread: (path: string, figure: string) => `${path} could not be read, so it is not known whether something shows ${figure}.`,

  // What was written for printing.
  noOutputName: (name: string) => `"${name}" is no name for a file to write.`,
  noOutput: (name: string) => `${name} is not there; write it first.`,
  onlyPages: () => 'Only printed pages can be shown; look for this file in its folder.',
  notShown: (why: string) => `The file is written, but no program would show it: ${why}`,

  // Earlier states.
  notThen: () => 'That revision does not hold this library.',
  thenTooLarge: () => 'That revision is too large to be compared.',
  thenUnread: () => 'That revision could not be read.',
  thenNotWhole: () => 'That revision is not whole on this computer.',

  // The disk said no; and what was kept.
  unwritten: (code: string) => `It could not be written: ${FAULTS[code] ?? code}.`,
  textKept: () => 'Nothing else was written. Your text is kept in this window. Mend what is in the way and save again.',
  journalLost: () => 'Unsaved text could not be put by: keep this window open until it is saved.',
  oldName: () => 'The file has its old name.',
  stillThere: () => 'The file is still there.',
  outputUnwritten: () => 'The file was not written.',
  settingHolds: () => 'The setting holds until you close.',
  nothingMade: () => 'Nothing was made.',
  begun: (folder: string) => `"${folder}" was begun and is no library yet; it can be removed.`,
  figureNotAdded: () => 'The figure was not added.',
  figureStays: () => 'The figure stays in the library.',
};

export type Refusals = typeof refusalsInEnglish;
/** One sentence: its name and its values. */
export type Said = { readonly [C in keyof Refusals]: readonly [C, ...Parameters<Refusals[C]>] }[keyof Refusals];

/** The sentences one after the other. What comes from another program is looked at first: of an unknown name nothing is said. */
export function inWords(said: readonly Said[], sentences: Refusals = refusalsInEnglish): string {
  return said
    .flatMap(([name, ...values]) =>
      Object.hasOwn(sentences, name) ? [(sentences[name] as (...all: readonly string[]) => string)(...values)] : [],
    )
    .join(' ');
}
