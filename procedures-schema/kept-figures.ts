/** What stands in each figure, and which texts show it, so that a picture that changed is held against those again. Reads no figure. */
import type { FigureFacts } from './figures/index.ts';

export class KeptFigures {
  readonly facts = new Map<string, FigureFacts>();
  /** By text: what stands there from each "figures/" to the end of its line. */
  private readonly stretches = new Map<string, readonly string[]>();

  /** False: the same is known of it already. */
  put(path: string, facts: FigureFacts): boolean {
    const before = this.facts.get(path);
    this.facts.set(path, facts);
    return before === undefined || JSON.stringify(before) !== JSON.stringify(facts);
  }

  text(path: string, text: string): void {
    // No path is longer; one line may hold several.
    const found = [...text.matchAll(/(?=(figures\/[^\n]{0,255}))/g)].map(([, stretch = '']) => stretch);
    if (found.length > 0) this.stretches.set(path, found);
    else this.stretches.delete(path);
  }

  /** Of a figure, or of a text. */
  gone(path: string): void {
    this.facts.delete(path);
    this.stretches.delete(path);
  }

  *shownIn(figure: string): Iterable<string> {
    for (const [path, stretches] of this.stretches) if (stretches.some((stretch) => stretch.startsWith(figure))) yield path;
  }
}
