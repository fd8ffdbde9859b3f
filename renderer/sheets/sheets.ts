/** The sheets that are laid over the page, by name. */
import type { ComponentType } from 'react';
import type { PanelName } from '../state/panel.ts';
import { AcceptSheet } from './accept-sheet.tsx';
import { BranchesSheet } from './branches-sheet.tsx';
import { FigureSheet } from './figure-sheet.tsx';
import { FileSheet } from './file-sheet.tsx';
import { FindSheet } from './find-sheet.tsx';
import { FrontSheet } from './front-sheet.tsx';
import { KeysSheet } from './keys-sheet.tsx';
import { LibrariesSheet } from './libraries-sheet.tsx';
import { LimitsSheet } from './limits-sheet.tsx';
import { MeasurementSheet } from './measurement-sheet.tsx';
import { NewGuideSheet } from './new-guide-sheet.tsx';
import { NewSheet } from './new-sheet.tsx';
import { NoticeSheet } from './notice-sheet.tsx';
import { OutrightSheet } from './outright-sheet.tsx';
import { RemarkSheet } from './remark-sheet.tsx';
import { RenameSheet } from './rename-sheet.tsx';
import { SettleSheet } from './settle-sheet.tsx';
import { SpellingSheet } from './spelling-sheet.tsx';

export const SHEETS: Readonly<Record<PanelName, ComponentType>> = {
  file: FileSheet,
  find: FindSheet,
  rename: RenameSheet,
  front: FrontSheet,
  new: NewSheet,
  'new guide': NewGuideSheet,
  measurement: MeasurementSheet,
  limits: LimitsSheet,
  figure: FigureSheet,
  notice: NoticeSheet,
  branches: BranchesSheet,
  remark: RemarkSheet,
  outright: OutrightSheet,
  libraries: LibrariesSheet,
  keys: KeysSheet,
  accept: AcceptSheet,
  settle: SettleSheet,
  spelling: SpellingSheet,
};
