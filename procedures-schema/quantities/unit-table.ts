/**
 * Units as data: what a writer types, which quantity it measures, and the exact factor to that quantity's base unit.
 * To add a unit, add a row. Factors: NIST Special Publication 811 (2008), Appendix B, from its definitions (inch 25.4 mm,
 * pound 0.453 592 37 kg, standard gravity 9.806 65 m/s², US gallon 231 in³). The tests derive each factor anew from its definition
 * (tests/published/definitions.test.ts) and compare it with values that were printed.
 */

export type QuantityKind =
  | 'length'
  | 'area'
  | 'volume'
  | 'mass'
  | 'force'
  | 'torque'
  | 'pressure'
  | 'temperature'
  | 'temperature difference'
  | 'time'
  | 'angle'
  | 'turns'
  | 'voltage'
  | 'current'
  | 'resistance'
  | 'capacitance'
  | 'frequency'
  | 'power'
  | 'energy'
  | 'flow'
  | 'speed'
  | 'rotational speed'
  | 'sound level'
  | 'ratio'
  | 'spring rate'
  | 'count';

export interface UnitRow {
  /** As printed. */
  readonly symbol: string;
  readonly kind: QuantityKind;
  /** Base units in one of this, as "n/d" or a decimal. */
  readonly factor: string;
  /** Added after the factor, in base units: temperature scales only. */
  readonly offset?: string;
  readonly system: 'metric' | 'inch' | 'both';
  /** Other ways it is typed, besides the symbol. */
  readonly also?: readonly string[];
  /** Converted when asked for by its symbol, never found in running text: too short, too rare, or a common word. */
  readonly quiet?: true;
  /** Typed, but another quantity is meant by it in service text: pound for a force. */
  readonly meant?: { readonly kind: QuantityKind; readonly symbol: string };
}

// One row a line, so that a table reads as a table.
// biome-ignore format: data
export const UNIT_TABLE: readonly UnitRow[] = [
  { symbol: 'mm', kind: 'length', factor: '1', system: 'metric', also: ['millimetre', 'millimetres', 'millimeter', 'millimeters'] },
  { symbol: 'cm', kind: 'length', factor: '10', system: 'metric', also: ['centimetre', 'centimetres', 'centimeter', 'centimeters'] },
  { symbol: 'm', kind: 'length', factor: '1000', system: 'metric', also: ['metre', 'metres', 'meter', 'meters'] },
  { symbol: 'km', kind: 'length', factor: '1000000', system: 'metric' },
  { symbol: 'µm', kind: 'length', factor: '1/1000', system: 'metric', also: ['μm', 'um'] },
  { symbol: 'in', kind: 'length', factor: '127/5', system: 'inch', also: ['in.', 'inch', 'inches', '"', '″', '”'] },
  { symbol: 'ft', kind: 'length', factor: '1524/5', system: 'inch', also: ['foot', 'feet', '′'] },
  { symbol: 'yd', kind: 'length', factor: '4572/5', system: 'inch' },
  { symbol: 'mil', kind: 'length', factor: '127/5000', system: 'inch', also: ['mils', 'thou'] },
  { symbol: 'mm²', kind: 'area', factor: '1', system: 'metric', also: ['mm2', 'sq mm'] },
  { symbol: 'cm²', kind: 'area', factor: '100', system: 'metric', also: ['cm2'] },
  { symbol: 'm²', kind: 'area', factor: '1000000', system: 'metric', also: ['m2'] },
  { symbol: 'in²', kind: 'area', factor: '16129/25', system: 'inch', also: ['in2', 'sq in'] },
  { symbol: 'L', kind: 'volume', factor: '1000', system: 'metric', also: ['l', 'litre', 'litres', 'liter', 'liters'] },
  { symbol: 'mL', kind: 'volume', factor: '1', system: 'metric', also: ['ml', 'cm³', 'cm3', 'cc', 'millilitre', 'millilitres'] },
  { symbol: 'm³', kind: 'volume', factor: '1000000', system: 'metric', also: ['m3'] },
  { symbol: 'gal', kind: 'volume', factor: '473176473/125000', system: 'inch', also: ['US gal', 'gallon', 'gallons'] },
  { symbol: 'qt', kind: 'volume', factor: '473176473/500000', system: 'inch' },
  { symbol: 'pt', kind: 'volume', factor: '473176473/1000000', system: 'inch' },
  { symbol: 'fl oz', kind: 'volume', factor: '473176473/16000000', system: 'inch' },
  { symbol: 'in³', kind: 'volume', factor: '2048383/125000', system: 'inch', also: ['in3', 'cu in'] },
  { symbol: 'ft³', kind: 'volume', factor: '442450728/15625', system: 'inch', also: ['ft3', 'cu ft'] },
  { symbol: 'g', kind: 'mass', factor: '1', system: 'metric', also: ['gram', 'grams'] },
  { symbol: 'kg', kind: 'mass', factor: '1000', system: 'metric', also: ['kilogram', 'kilograms', 'kilo', 'kilos'] },
  { symbol: 'mg', kind: 'mass', factor: '1/1000', system: 'metric' },
  { symbol: 't', kind: 'mass', factor: '1000000', system: 'metric', also: ['tonne', 'tonnes'] },
  { symbol: 'lb', kind: 'mass', factor: '45359237/100000', system: 'inch', also: ['lbs', 'lb.', 'lbs.', 'pound', 'pounds'], meant: { kind: 'force', symbol: 'lbf' } },
  { symbol: 'oz', kind: 'mass', factor: '45359237/1600000', system: 'inch', also: ['ounce', 'ounces'], meant: { kind: 'force', symbol: 'ozf' } },
  { symbol: 'N', kind: 'force', factor: '1', system: 'metric', also: ['newton', 'newtons'] },
  { symbol: 'kN', kind: 'force', factor: '1000', system: 'metric' },
  { symbol: 'lbf', kind: 'force', factor: '8896443230521/2000000000000', system: 'inch' },
  { symbol: 'ozf', kind: 'force', factor: '8896443230521/32000000000000', system: 'inch' },
  { symbol: 'kgf', kind: 'force', factor: '196133/20000', system: 'metric', also: ['kp'] },
  { symbol: 'kip', kind: 'force', factor: '8896443230521/2000000000', system: 'inch' },
  { symbol: 'N·m', kind: 'torque', factor: '1', system: 'metric', also: ['N.m', 'Nm', 'N m', 'N-m', 'N⋅m', 'N∙m', 'N•m'] },
  { symbol: 'mN·m', kind: 'torque', factor: '1/1000', system: 'metric', also: ['mN.m', 'mNm'] },
  { symbol: 'kN·m', kind: 'torque', factor: '1000', system: 'metric', also: ['kN.m', 'kNm'] },
  { symbol: 'lbf·ft', kind: 'torque', factor: '3389544870828501/2500000000000000', system: 'inch', also: ['lbf.ft', 'lbf ft', 'lbf-ft', 'ft·lbf', 'ft.lbf', 'ft lbf', 'ft-lbf', 'lbf⋅ft'] },
  { symbol: 'lbf·in', kind: 'torque', factor: '1129848290276167/10000000000000000', system: 'inch', also: ['lbf.in', 'lbf in', 'lbf-in', 'in·lbf', 'in.lbf', 'in lbf', 'in-lbf', 'lbf⋅in'] },
  { symbol: 'lb·ft', kind: 'torque', factor: '3389544870828501/2500000000000000', system: 'inch', also: ['lb.ft', 'lb ft', 'lb-ft', 'ft·lb', 'ft.lb', 'ft lb', 'ft-lb', 'ft-lbs', 'ft lbs', 'lbs-ft'], meant: { kind: 'torque', symbol: 'lbf·ft' } },
  { symbol: 'lb·in', kind: 'torque', factor: '1129848290276167/10000000000000000', system: 'inch', also: ['lb.in', 'lb in', 'lb-in', 'in·lb', 'in lb', 'in-lb', 'in-lbs', 'in lbs'], meant: { kind: 'torque', symbol: 'lbf·in' } },
  { symbol: 'kgf·m', kind: 'torque', factor: '196133/20000', system: 'metric', also: ['kgf.m', 'kgf m', 'kgf-m'] },
  { symbol: 'kgf·cm', kind: 'torque', factor: '196133/2000000', system: 'metric', also: ['kgf.cm', 'kgf cm', 'kgf-cm'] },
  { symbol: 'bar', kind: 'pressure', factor: '100000', system: 'metric', also: ['bars'] },
  { symbol: 'mbar', kind: 'pressure', factor: '100', system: 'metric' },
  { symbol: 'Pa', kind: 'pressure', factor: '1', system: 'metric' },
  { symbol: 'kPa', kind: 'pressure', factor: '1000', system: 'metric' },
  { symbol: 'MPa', kind: 'pressure', factor: '1000000', system: 'metric' },
  { symbol: 'psi', kind: 'pressure', factor: '8896443230521/1290320000', system: 'inch', also: ['lbf/in²', 'lbf/in2', 'psig'] },
  { symbol: 'ksi', kind: 'pressure', factor: '8896443230521/1290320', system: 'inch' },
  { symbol: 'inHg', kind: 'pressure', factor: '3386388640341/1000000000', system: 'inch', also: ['in Hg', 'in. Hg'] },
  { symbol: 'mmHg', kind: 'pressure', factor: '26664477483/200000000', system: 'metric' },
  { symbol: 'inH2O', kind: 'pressure', factor: '24908891/100000', system: 'inch', also: ['in H2O', 'inH₂O'] },
  { symbol: 'mmH2O', kind: 'pressure', factor: '196133/20000', system: 'metric', also: ['mmH₂O'] },
  { symbol: '°C', kind: 'temperature', factor: '1', offset: '273.15', system: 'metric', also: ['℃', 'deg C', 'degC', 'degrees C', 'degrees Celsius', 'º C', '° C'] },
  { symbol: '°F', kind: 'temperature', factor: '5/9', offset: '45967/180', system: 'inch', also: ['℉', 'deg F', 'degF', 'degrees F', 'degrees Fahrenheit', '° F'] },
  { symbol: 'K', kind: 'temperature', factor: '1', offset: '0', system: 'metric' },
  { symbol: 's', kind: 'time', factor: '1', system: 'both', also: ['sec', 'second', 'seconds'] },
  { symbol: 'ms', kind: 'time', factor: '1/1000', system: 'both' },
  { symbol: 'min', kind: 'time', factor: '60', system: 'both', also: ['minute', 'minutes', 'mins'] },
  { symbol: 'h', kind: 'time', factor: '3600', system: 'both', also: ['hr', 'hrs', 'hour', 'hours'] },
  { symbol: 'd', kind: 'time', factor: '86400', system: 'both', also: ['day', 'days'] },
  { symbol: '°', kind: 'angle', factor: '1', system: 'both', also: ['deg', 'degree', 'degrees'] },
  { symbol: 'turn', kind: 'turns', factor: '1', system: 'both', also: ['turns', 'revolution', 'revolutions'] },
  { symbol: 'V', kind: 'voltage', factor: '1', system: 'both', also: ['volt', 'volts', 'V DC', 'V AC', 'VDC', 'VAC'] },
  { symbol: 'mV', kind: 'voltage', factor: '1/1000', system: 'both' },
  { symbol: 'kV', kind: 'voltage', factor: '1000', system: 'both' },
  { symbol: 'A', kind: 'current', factor: '1', system: 'both', also: ['amp', 'amps', 'ampere', 'amperes'] },
  { symbol: 'mA', kind: 'current', factor: '1/1000', system: 'both' },
  { symbol: 'Ω', kind: 'resistance', factor: '1', system: 'both', also: ['ohm', 'ohms', 'Ω'] },
  { symbol: 'kΩ', kind: 'resistance', factor: '1000', system: 'both', also: ['kohm', 'kΩ'] },
  { symbol: 'MΩ', kind: 'resistance', factor: '1000000', system: 'both', also: ['Mohm', 'megohm', 'megohms', 'MΩ'] },
  { symbol: 'mF', kind: 'capacitance', factor: '1/1000', system: 'both' },
  { symbol: 'µF', kind: 'capacitance', factor: '1/1000000', system: 'both', also: ['μF', 'uF'] },
  { symbol: 'Hz', kind: 'frequency', factor: '1', system: 'both' },
  { symbol: 'kHz', kind: 'frequency', factor: '1000', system: 'both' },
  { symbol: 'W', kind: 'power', factor: '1', system: 'metric', also: ['watt', 'watts'] },
  { symbol: 'kW', kind: 'power', factor: '1000', system: 'metric' },
  { symbol: 'hp', kind: 'power', factor: '37284993579113511/50000000000000', system: 'inch' },
  { symbol: 'J', kind: 'energy', factor: '1', system: 'metric' },
  { symbol: 'kJ', kind: 'energy', factor: '1000', system: 'metric' },
  { symbol: 'L/min', kind: 'flow', factor: '1', system: 'metric', also: ['l/min', 'lpm'] },
  { symbol: 'L/s', kind: 'flow', factor: '60', system: 'metric', also: ['l/s'] },
  { symbol: 'm³/h', kind: 'flow', factor: '50/3', system: 'metric', also: ['m3/h'] },
  { symbol: 'gal/min', kind: 'flow', factor: '473176473/125000000', system: 'inch', also: ['gpm', 'US gal/min'] },
  { symbol: 'm/s', kind: 'speed', factor: '1', system: 'metric' },
  { symbol: 'mm/s', kind: 'speed', factor: '1/1000', system: 'metric' },
  { symbol: 'm/min', kind: 'speed', factor: '1/60', system: 'metric' },
  { symbol: 'ft/min', kind: 'speed', factor: '127/25000', system: 'inch', also: ['fpm'] },
  { symbol: 'ft/s', kind: 'speed', factor: '381/1250', system: 'inch' },
  { symbol: 'in/s', kind: 'speed', factor: '127/5000', system: 'inch' },
  { symbol: 'r/min', kind: 'rotational speed', factor: '1', system: 'both', also: ['rpm', 'min⁻¹', 'rev/min', 'RPM'] },
  { symbol: 'dB', kind: 'sound level', factor: '1', system: 'both', also: ['dB(A)', 'dBA'] },
  { symbol: '%', kind: 'ratio', factor: '1/100', system: 'both', also: ['percent', 'per cent'] },
  { symbol: 'N/mm', kind: 'spring rate', factor: '1', system: 'metric' },
  { symbol: 'lbf/in', kind: 'spring rate', factor: '8896443230521/50800000000000', system: 'inch' },
  // Other units of the tables of NIST SP 811, for conversion only.
  { symbol: 'mi', kind: 'length', factor: '1609344', system: 'inch', quiet: true },
  { symbol: 'ft (US survey)', kind: 'length', factor: '1200000/3937', system: 'inch', quiet: true },
  { symbol: 'short ton', kind: 'mass', factor: '45359237/50', system: 'inch', quiet: true },
  { symbol: 'long ton', kind: 'mass', factor: '635029318/625', system: 'inch', quiet: true },
  { symbol: 'short ton-force', kind: 'force', factor: '8896443230521/1000000000', system: 'inch', quiet: true },
  { symbol: 'ozf·in', kind: 'torque', factor: '1129848290276167/160000000000000000', system: 'inch', quiet: true },
  { symbol: 'atm', kind: 'pressure', factor: '101325', system: 'metric', quiet: true },
  { symbol: 'kgf/cm²', kind: 'pressure', factor: '196133/2', system: 'metric', quiet: true },
  { symbol: 'at', kind: 'pressure', factor: '196133/2', system: 'metric', quiet: true },
  { symbol: 'Torr', kind: 'pressure', factor: '20265/152', system: 'metric', quiet: true },
  { symbol: 'lbf/ft²', kind: 'pressure', factor: '8896443230521/185806080000', system: 'inch', quiet: true },
  { symbol: 'UK gal', kind: 'volume', factor: '454609/100', system: 'inch', quiet: true },
  { symbol: 'UK fl oz', kind: 'volume', factor: '454609/16000', system: 'inch', quiet: true },
  { symbol: 'ft³/min', kind: 'flow', factor: '55306341/1953125', system: 'inch', quiet: true },
  { symbol: 'ft·lbf (energy)', kind: 'energy', factor: '3389544870828501/2500000000000000', system: 'inch', quiet: true },
  { symbol: 'Btu', kind: 'energy', factor: '52752792631/50000000', system: 'inch', quiet: true },
  { symbol: 'W·h', kind: 'energy', factor: '3600', system: 'metric', quiet: true },
  { symbol: 'hp (electric)', kind: 'power', factor: '746', system: 'inch', quiet: true },
  { symbol: 'hp (metric)', kind: 'power', factor: '588399/800', system: 'metric', quiet: true },
  { symbol: 'Btu/h', kind: 'power', factor: '52752792631/180000000000', system: 'inch', quiet: true },
  { symbol: 'ton of refrigeration', kind: 'power', factor: '52752792631/15000000', system: 'inch', quiet: true },
  { symbol: 'mi/h', kind: 'speed', factor: '1397/3125', system: 'inch', quiet: true },
  { symbol: 'km/h', kind: 'speed', factor: '5/18', system: 'metric', quiet: true },
  { symbol: 'kn', kind: 'speed', factor: '463/900', system: 'both', quiet: true },
  { symbol: 'arcmin', kind: 'angle', factor: '1/60', system: 'both', quiet: true },
];
