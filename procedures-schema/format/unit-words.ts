/**
 * Spellings of units, enough to tell "5 °C" from "5 screws" and "3.5 mm" from step 3.5. What a unit is worth
 * is not known here: that is quantities/.
 */
const UNITS = new Set(
  (
    'mm cm dm m km µm μm um nm in inch inches ft foot feet yd mil mils thou ' +
    'mg g kg t lb lbs oz ton tons tonne tonnes N kN MN lbf kgf ozf dyn ' +
    'Nm N·m N.m Ncm N·cm kNm kN·m lbf·ft lbf·in ft·lb ft·lbf in·lb in·lbf ft-lb ft-lbs in-lb in-lbs lb-ft lb-in lbf-ft lbf-in ozf·in ' +
    'Pa hPa kPa MPa GPa bar mbar psi psig psia ksi atm mmHg inHg inH2O ' +
    '°C °F °K K ºC ºF degC degF ° deg degree degrees rad ' +
    'V mV kV VAC VDC A mA kA µA W kW MW hp VA kVA Ω mΩ kΩ MΩ ohm ohms kohm Mohm F µF nF pF H mH Hz kHz MHz GHz ' +
    's ms µs sec secs second seconds min mins minute minutes h hr hrs hour hours day days week weeks month months ' +
    'L l mL ml cL cl dL dl gal gals qt pt cc cm³ m³ dm³ mm³ mm² cm² m² in² ft² in³ ft³ ' +
    'rpm r/min 1/min min⁻¹ m/s mm/s m/min ft/min in/s ft/s km/h mph L/min l/min L/h l/h L/s l/s m³/h m³/s m³/min gpm cfm scfm kg/h kg/s ' +
    '% ‰ ppm dB dBA dB(A) lx lm cd Nmm J kJ MJ kWh Wh Ah mAh S µS mS S/cm µS/cm T mT g/L mg/L N/mm N/mm² m/s² g-force cSt mm²/s'
  ).split(' '),
);

export function isUnit(word: string): boolean {
  return UNITS.has(word) || UNITS.has(word.replace(/[.,;:!?)]+$/, ''));
}

/** Number as service prose writes it: 5, 0.35, 0,35, 1/2, 1 1/2, −5, 1 200. */
export const NUMBER =
  '[-−+±]?\\s?(?:\\d+\\s\\d+\\/\\d+|\\d+\\/\\d+|\\d{1,3}(?:[ \\u00a0\\u202f]\\d{3})+(?:[.,]\\d+)?|\\d+(?:[.,]\\d+)*|[.,]\\d+)';

const QUANTITY = new RegExp(
  `^(?:[<>≤≥≈~]|about |up to |max\\.? |min\\.? )?\\s*${NUMBER}(?:\\s?(?:–|-|−|±|to|…|\\.\\.\\.|\\+\\/-)\\s?${NUMBER})?[\\s\\u00a0\\u202f]?(["'″′]|[^\\s\\d][^\\s]*)(?:\\s(?:to|–|-|±)\\s${NUMBER}\\s?([^\\s\\d][^\\s]*))?$`,
);

/** A quantity with a unit and nothing else: "0.5 in", "12–14 psi", "1/2 in to 3/4 in". */
export function isQuantity(text: string): boolean {
  const found = QUANTITY.exec(text.trim());
  if (!found) return false;
  return /^["'″′]$/.test(found[1] ?? '') || (isUnit(found[1] ?? '') && (found[2] === undefined || isUnit(found[2])));
}

const LEADING = new RegExp(`^${NUMBER}[\\s\\u00a0\\u202f]?([^\\s\\d][^\\s]*)`);

/** "5 °C or more": starts with a number and a unit. */
export function startsWithQuantity(text: string): boolean {
  const found = LEADING.exec(text);
  return found !== null && isUnit(found[1] ?? '');
}
