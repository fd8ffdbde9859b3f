/** What the host refuses, in German; the English of it is the host's own. */
import type { Refusals } from '../../electron/host/contract/index.ts';

const FAULTS: Readonly<Record<string, string>> = {
  ENOSPC: 'die Platte ist voll',
  EACCES: 'die Erlaubnis fehlt',
  EPERM: 'die Erlaubnis fehlt',
  EBUSY: 'ein anderes Programm hält die Datei fest',
  EROFS: 'von der Platte kann nur gelesen werden',
  EIO: 'die Platte meldet einen Fehler',
  EDQUOT: 'Ihr Anteil an der Platte ist verbraucht',
  EMFILE: 'zu viele Dateien sind offen',
  ENAMETOOLONG: 'der Name ist für diese Platte zu lang',
};

const UNREAD: Readonly<Record<string, string>> = {
  EACCES: 'die Erlaubnis fehlt',
  EPERM: 'die Erlaubnis fehlt',
  ENOENT: 'es ist nicht da',
  ELOOP: 'es führt zu sich selbst zurück',
  EISDIR: 'es ist ein Ordner',
  EIO: 'die Platte meldet einen Fehler',
  EBUSY: 'ein anderes Programm hält es fest',
  EMFILE: 'zu viele Dateien sind offen',
  '': 'der Grund ist nicht bekannt',
};

export const refusalsInGerman: Refusals = {
  odd: (sentence) => sentence,
  failed: (method, why) => `Das Programm hat bei ${method} versagt: ${why}`,
  silent: () =>
    'Der eigene Dienst von Handsclear antwortet nicht. Ihr Text ist noch in diesem Fenster; starten Sie Handsclear neu und speichern Sie.',
  shutOut: () =>
    'Dieses Fenster wird nicht mehr eingelassen: wahrscheinlich wurden die Cookies des Browsers gelöscht. Ihr Text ist noch in diesem Fenster; kopieren Sie, was nicht gespeichert ist, starten Sie Handsclear neu und nehmen Sie die Adresse, die dann dasteht.',
  tooMuch: (megabytes) =>
    `Das ist mehr als die ${megabytes} MB, die auf einmal genommen werden. Ihr Text ist noch in diesem Fenster; speichern Sie weniger Dateien auf einmal oder ein kleineres Bild.`,

  notOpen: () => 'Diese Bibliothek ist nicht geöffnet.',
  wholePath: () => 'Eine Bibliothek wird mit ihrem ganzen Pfad genannt.',
  notLibrary: (folder) =>
    `„${folder}“ ist keine Bibliothek: library.yaml fehlt. Wählen Sie den Ordner, in dem library.yaml, registers und procedures liegen.`,
  noDialog: () => 'Dieser Browser hat keinen Dialog für Ordner; wählen Sie aus der Liste.',
  noFolder: (folder) => `Es gibt keinen Ordner „${folder}“.`,
  folderUnread: (folder) => `„${folder}“ kann nicht gelesen werden.`,
  folderOutside: (folder) =>
    `„${folder}“ liegt außerhalb Ihrer eigenen Ordner. Starten Sie Handsclear mit diesem Ordner, um ihn zu öffnen.`,
  noFolderName: (name) => `„${name}“ ist kein Name für einen Ordner.`,
  publisher: () => 'Eine Bibliothek braucht den Namen ihres Herausgebers, in einer kurzen Zeile.',
  notEmpty: (folder) => `„${folder}“ gibt es schon, und darin liegt etwas. Wählen Sie einen anderen Namen.`,

  folderShut: (code) => `Der Ordner kann nicht gelesen werden: ${UNREAD[code] ?? code}.`,
  folderDeep: (levels) => `Der Ordner liegt mehr als ${levels} Ebenen tief.`,
  manyFiles: (most) => `Die Bibliothek hat mehr als ${most} Dateien; der Rest wurde nicht gelesen.`,
  linkOut: () => 'Das ist eine Verknüpfung zu einem Ort außerhalb der Bibliothek; sie wurde nicht gelesen.',
  linkNowhere: (code) => `Diese Verknüpfung führt nirgendwohin: ${UNREAD[code] ?? code}.`,
  fileLong: (megabytes) => `Die Datei ist ${megabytes} MB lang und wurde nicht gelesen.`,
  fileDamaged: (byte) => `Die Datei ist kein Text in UTF-8: das Byte ${byte} bedeutet hier nichts.`,
  fileUtf16: () => 'Die Datei ist Text in UTF-16 und wurde nicht gelesen.',
  fileNoText: () => 'Die Datei ist kein Text und wurde nicht gelesen.',
  fileShut: (code) => `Die Datei kann nicht gelesen werden: ${UNREAD[code] ?? code}.`,

  nameLong: () => 'Er ist zu lang.',
  nameHalf: () => 'Darin steht ein halbes Zeichen.',
  nameLetter: () => 'Darin steht ein Zeichen, das nicht jedes System erlaubt.',
  nameSlash: () => 'Am Anfang oder Ende steht ein Schrägstrich, oder es stehen zwei hintereinander.',
  nameHoldsSlash: () => 'Darin steht ein Schrägstrich.',
  nameDot: () => 'Ein Teil davon beginnt mit einem Punkt.',
  nameEnd: () => 'Ein Teil davon endet mit einem Punkt oder Leerzeichen.',
  nameDevice: (part) => `„${part}“ ist unter Windows ein Gerät.`,
  namePartLong: () => 'Ein Teil davon ist zu lang.',

  noPlace: (path) => `„${path}“ ist kein Ort einer Bibliothek, an den das geschrieben werden darf.`,
  leadsOut: (path) => `„${path}“ führt durch eine Verknüpfung aus der Bibliothek hinaus.`,
  linkElsewhere: (path, to) => `„${path}“ ist eine Verknüpfung zu „${to}“; dorthin darf das nicht geschrieben werden.`,
  thereAlready: (path) => `${path} gibt es schon; nichts wurde umbenannt. Wählen Sie einen anderen Namen.`,
  libraryFile: () => 'Ohne library.yaml ist der Ordner keine Bibliothek; die Datei wurde nicht entfernt.',

  noFigure: (path) => `${path} ist nicht da, ist zu groß oder liegt außerhalb der Bibliothek.`,
  otherFigure: (path) => `${path} ist ein anderes Bild dieses Namens. Geben Sie diesem einen anderen Namen.`,
  figureNotOurs: (path) => `${path} wurde nicht von diesem Fenster aus hinzugefügt. Es bleibt in der Bibliothek.`,
  figureTwice: (path) => `${path} wurde auch von einem anderen Fenster aus eingefügt. Es bleibt in der Bibliothek.`,
  figureChanged: (path) => `${path} wurde geändert, seit es hinzugefügt wurde.`,
  usesUnread: (path, figure) => `${path} konnte nicht gelesen werden; so ist nicht bekannt, ob etwas ${figure} zeigt.`,

  noOutputName: (name) => `„${name}“ ist kein Name für eine Datei, die geschrieben werden soll.`,
  noOutput: (name) => `${name} ist nicht da; schreiben Sie die Datei zuerst.`,
  onlyPages: () => 'Nur gedruckte Seiten können gezeigt werden; diese Datei finden Sie in ihrem Ordner.',
  notShown: (why) => `Die Datei ist geschrieben, aber kein Programm wollte sie zeigen: ${why}`,

  notThen: () => 'In diesem Stand gibt es diese Bibliothek nicht.',
  thenTooLarge: () => 'Dieser Stand ist zu groß für einen Vergleich.',
  thenUnread: () => 'Dieser Stand konnte nicht gelesen werden.',
  thenNotWhole: () => 'Dieser Stand liegt auf diesem Rechner nicht vollständig vor.',

  unwritten: (code) => `Es konnte nicht geschrieben werden: ${FAULTS[code] ?? code}.`,
  textKept: () =>
    'Sonst wurde nichts geschrieben. Ihr Text bleibt in diesem Fenster. Räumen Sie aus dem Weg, was hindert, und speichern Sie noch einmal.',
  journalLost: () => 'Nicht Gespeichertes konnte nicht gesichert werden: lassen Sie dieses Fenster offen, bis gespeichert ist.',
  oldName: () => 'Die Datei hat ihren alten Namen.',
  stillThere: () => 'Die Datei ist noch da.',
  outputUnwritten: () => 'Die Datei wurde nicht geschrieben.',
  settingHolds: () => 'Die Einstellung gilt, bis Sie schließen.',
  nothingMade: () => 'Nichts wurde angelegt.',
  begun: (folder) => `„${folder}“ wurde begonnen und ist noch keine Bibliothek; der Ordner kann entfernt werden.`,
  figureNotAdded: () => 'Das Bild wurde nicht hinzugefügt.',
  figureStays: () => 'Das Bild bleibt in der Bibliothek.',
};
