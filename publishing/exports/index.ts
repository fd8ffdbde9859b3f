/** Facts to other forms, one file each. Exports only. */
export { graphSvg } from './graph-svg.ts';
