/** What holds for an edition where nothing else is chosen, and who says so. Known before any page is laid out, and where none can be. */
import type { Book, UnitsEdition } from '../../../publishing/index.ts';
import type { LibraryModel } from '../library-model.ts';
import type { Edition } from './pages.ts';

/** The guide, the library, or what is usual. */
export interface House extends Pick<Book, 'paper' | 'binding' | 'duplex' | 'language'> {
  readonly units: UnitsEdition;
  /** Boxes to sign off after each procedure; the paper checklist has its own. */
  readonly signOff: boolean;
  readonly by: Readonly<Record<'paper' | 'units' | 'binding' | 'duplex' | 'language', 'guide' | 'library' | 'usual'>>;
}

export function house({ facts }: LibraryModel, { file, form }: Pick<Edition, 'file' | 'form'>): House {
  const { paper, units, language, signOff } = facts.registers.house;
  const head = facts.guides.find((one) => one.file === file)?.head;
  return {
    paper: head?.paper ?? paper,
    units: `${units.first}-${units.second === 'none' ? 'only' : 'first'}`,
    binding: (form === 'short' ? undefined : head?.binding) ?? 'left',
    duplex: form === 'short' || head?.duplex === true,
    language: head?.language ?? language,
    signOff: form !== 'short' && signOff,
    by: {
      paper: head?.paper ? 'guide' : 'library',
      units: 'library',
      binding: form !== 'short' && head?.binding ? 'guide' : 'usual',
      duplex: form !== 'short' && head?.duplex ? 'guide' : 'usual',
      language: head?.language ? 'guide' : 'library',
    },
  };
}
