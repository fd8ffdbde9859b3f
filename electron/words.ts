/** The shell's own words in the languages of the page: its menu items and its questions. Everything else the page says itself. */

const en = {
  file: 'File',
  edit: 'Edit',
  view: 'View',
  newWindow: 'New window',
  openLibrary: 'Open library in a new window …',
  openRecent: 'Open recent',
  noRecent: 'None yet',
  closeWindow: 'Close window',
  quit: 'Quit Handsclear',
  cut: 'Cut',
  copy: 'Copy',
  paste: 'Paste',
  selectAll: 'Select all',
  larger: 'Larger',
  smaller: 'Smaller',
  usualSize: 'Usual size',
  fullScreen: 'Full screen',
  inspect: 'Inspect the page',
  window: 'Window',
  minimize: 'Minimize',
  help: 'Help',
  about: 'About Handsclear',
  cautions:
    'Handsclear helps a writer. Site lockout rules, local codes and licensed practice come first. A clean check does not make a machine safe; a qualified person reviews.',
  open: 'Open',
  notLibrary: 'This is no library',
  notLibraryWhy: (folder: string) =>
    `${folder} holds no library.yaml. Choose the folder that holds library.yaml, registers and procedures.`,
  unsaved: 'Some text is not saved.',
  unsavedWhy: 'Without saving, it is kept aside and offered again when the library is opened next.',
  saveAll: 'Save all',
  without: 'Go on without saving',
  stay: 'Stay',
  notSaved: 'Not everything could be saved, so the window stays open. The page says why.',
  stopped: 'The page stopped.',
  stoppedWhy: 'Text that was not saved is kept up to the last second or so, and is offered again when the page opens anew.',
  openAnew: 'Open anew',
  hangs: 'The page does not answer.',
  hangsWhy: 'It may be at a long piece of work. What is not saved is kept up to the moment when it stopped answering.',
  wait: 'Wait',
};

export type ShellWords = typeof en;

const de: ShellWords = {
  file: 'Datei',
  edit: 'Bearbeiten',
  view: 'Ansicht',
  newWindow: 'Neues Fenster',
  openLibrary: 'Bibliothek in neuem Fenster öffnen …',
  openRecent: 'Zuletzt geöffnet',
  noRecent: 'Noch keine',
  closeWindow: 'Fenster schließen',
  quit: 'Handsclear beenden',
  cut: 'Ausschneiden',
  copy: 'Kopieren',
  paste: 'Einfügen',
  selectAll: 'Alles markieren',
  larger: 'Größer',
  smaller: 'Kleiner',
  usualSize: 'Übliche Größe',
  fullScreen: 'Ganzer Bildschirm',
  inspect: 'Seite untersuchen',
  window: 'Fenster',
  minimize: 'Verkleinern',
  help: 'Hilfe',
  about: 'Über Handsclear',
  cautions:
    'Handsclear hilft beim Schreiben. Regeln des Betriebs zum Sichern gegen Wiedereinschalten, örtliche Vorschriften und befähigte Personen gehen vor. Eine Prüfung ohne Befund macht keine Maschine sicher.',
  open: 'Öffnen',
  notLibrary: 'Das ist keine Bibliothek',
  notLibraryWhy: (folder) => `${folder} enthält keine library.yaml. Wählen Sie den Ordner mit library.yaml, registers und procedures.`,
  unsaved: 'Ein Teil des Textes ist nicht gespeichert.',
  unsavedWhy: 'Ohne Speichern wird er beiseitegelegt und beim nächsten Öffnen der Bibliothek wieder angeboten.',
  saveAll: 'Alles speichern',
  without: 'Ohne Speichern weiter',
  stay: 'Bleiben',
  notSaved: 'Nicht alles konnte gespeichert werden, deshalb bleibt das Fenster offen. Die Seite sagt, warum.',
  stopped: 'Die Seite ist stehen geblieben.',
  stoppedWhy:
    'Nicht gespeicherter Text ist bis auf etwa die letzte Sekunde erhalten und wird angeboten, sobald die Seite neu geöffnet ist.',
  openAnew: 'Neu öffnen',
  hangs: 'Die Seite antwortet nicht.',
  hangsWhy: 'Vielleicht arbeitet sie noch. Nicht gespeicherter Text ist erhalten bis zu dem Augenblick, in dem sie zu antworten aufhörte.',
  wait: 'Warten',
};

/** `asked`: what the user set; empty: the system's. */
export function shellWords(asked: string, system: string): ShellWords {
  return (asked || system).toLowerCase().startsWith('de') ? de : en;
}
