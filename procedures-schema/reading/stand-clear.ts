/** Whether the words of a notice send people away from the machine: what rule R asks for before a test run with a cover off. */

const STAND_CLEAR = /\b(?:stand|stay|keep|be|get) (?:well )?(?:clear|away|back|out)\b|\bkeep (?:your )?hands? (?:away|out|off|clear)\b/i;

export function saysStandClear(text: string): boolean {
  return STAND_CLEAR.test(text);
}
