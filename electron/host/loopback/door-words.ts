/**
 * What the door says to somebody who stands before it with a browser: why the page does not open, and what opens it. No page of ours is there to say it,
 * so the words are here, in the languages of the page, chosen by what the browser asks for.
 */

const en = {
  noAddress: () => 'This is no address of Handsclear.',
  otherName: (own: string) => `Handsclear answers to one name only. Open ${own} instead.`,
  used: () =>
    'This address was used already: it lets in one browser, once. Go on in the window that it opened. If that is gone, start Handsclear again and use the address that it shows then.',
  otherUser: () =>
    'This Handsclear was not started by you, as far as this computer can tell. Start Handsclear yourself and use the address that it shows.',
  otherPage: (own: string) =>
    `Another page led here, and Handsclear opens for no other page. Type the address into the browser yourself: ${own}`,
  stranger: () =>
    'This browser was not let in, or its cookies were deleted since. Start Handsclear again and use the address that it shows.',
  onlyRead: () => 'This address can only be read.',
  notJson: () => 'Calls are posted as JSON.',
  noFile: () => 'There is no such page. Handsclear itself is at the address without anything behind the number.',
  noOutput: () => 'This file is not there any more. Write it again in Print.',
};

export type DoorWords = typeof en;
export type TurnedAway = 'otherName' | 'otherPage' | 'stranger';

const de: DoorWords = {
  noAddress: () => 'Das ist keine Adresse von Handsclear.',
  otherName: (own) => `Handsclear hört nur auf einen Namen. Öffnen Sie stattdessen ${own}.`,
  used: () =>
    'Diese Adresse wurde schon benutzt: sie lässt einen Browser ein, einmal. Arbeiten Sie in dem Fenster weiter, das sie geöffnet hat. Gibt es das nicht mehr, starten Sie Handsclear neu und nehmen Sie die Adresse, die dann dasteht.',
  otherUser: () =>
    'Soweit dieser Rechner es sagen kann, haben nicht Sie dieses Handsclear gestartet. Starten Sie Handsclear selbst und nehmen Sie die Adresse, die dann dasteht.',
  otherPage: (own) =>
    `Eine andere Seite hat hierher geführt, und für andere Seiten öffnet Handsclear nicht. Tippen Sie die Adresse selbst in den Browser: ${own}`,
  stranger: () =>
    'Dieser Browser wurde nicht eingelassen, oder seine Cookies wurden seither gelöscht. Starten Sie Handsclear neu und nehmen Sie die Adresse, die dann dasteht.',
  onlyRead: () => 'Diese Adresse kann nur gelesen werden.',
  notJson: () => 'Aufrufe werden als JSON gesendet.',
  noFile: () => 'Diese Seite gibt es nicht. Handsclear selbst hat die Adresse, hinter deren Zahl nichts mehr steht.',
  noOutput: () => 'Diese Datei ist nicht mehr da. Schreiben Sie sie in Drucken noch einmal.',
};

/** `asked`: the languages a browser names, the dearest first, as it does unless the user turned that round. */
export const doorWords = (asked: string | undefined): DoorWords => (/^\s*de\b/i.test(asked ?? '') ? de : en);
