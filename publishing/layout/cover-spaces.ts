/** A cover is one page: its spaces take what is left of it, or give way where its words are many or large. Knows heights only. */
import type { Slab } from './slab.ts';
import type { Mp } from './units.ts';

export function onOnePage(slabs: readonly Slab[], height: Mp): readonly Slab[] {
  const taken = slabs.reduce((sum, slab, index) => sum + slab.height + (index === 0 ? 0 : slab.gap), 0);
  const over = taken - height;
  if (over > 0) {
    const spaces = slabs.reduce((sum, slab) => sum + (slab.space === undefined ? 0 : slab.height), 0);
    const kept = Math.max(0, spaces - over);
    return slabs.map((slab) => (slab.space === undefined ? slab : { ...slab, height: Math.floor((slab.height * kept) / spaces) }));
  }
  const filling = slabs.filter(({ space }) => space === 'fill').length;
  return slabs.map((slab) => (slab.space === 'fill' ? { ...slab, height: slab.height + Math.floor(-over / filling) } : slab));
}
