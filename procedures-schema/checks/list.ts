/** The list of checks, in the order of their names, and the ways to run them. */

import type { Finding } from '../finding.ts';
import { adjustedAgain } from './adjusted-again.ts';
import { asideEntered } from './aside-entered.ts';
import { attributes } from './attributes.ts';
import { beltSaid } from './belt-said.ts';
import { branchesMixed } from './branches-mixed.ts';
import { calloutExplained } from './callout-explained.ts';
import { calloutThere } from './callout-there.ts';
import type { Check, LibraryFacts, ProcedureFacts } from './check.ts';
import { claimsTrue } from './claims-true.ts';
import { clearBeforeTry } from './clear-before-try.ts';
import { closesWhatIsOpen } from './closes-what-is-open.ts';
import { consumableNotListed } from './consumable-not-listed.ts';
import { consumableNotUsed } from './consumable-not-used.ts';
import { controlLocked } from './control-locked.ts';
import { controlsOff } from './controls-off.ts';
import { coverRefitted } from './cover-refitted.ts';
import { coversBeforeLive } from './covers-before-live.ts';
import { documentCited } from './document-cited.ts';
import { documentNumber } from './document-number.ts';
import { dualAgree } from './dual-agree.ts';
import { earthAfterTest } from './earth-after-test.ts';
import { endAsSaid } from './end-as-said.ts';
import { energyAnswered } from './energy-answered.ts';
import { fastenerTight } from './fastener-tight.ts';
import { figureLegible } from './figure-legible.ts';
import { figureThere } from './figure-there.ts';
import { figureWhole } from './figure-whole.ts';
import { filmFits } from './film-fits.ts';
import { forceNotMass } from './force-not-mass.ts';
import { frontMatterFields } from './front-matter-fields.ts';
import { frontMatterForm } from './front-matter-form.ts';
import { guideForm } from './guide-form.ts';
import { guideLists } from './guide-lists.ts';
import { handsIsolated } from './hands-isolated.ts';
import { handsLocked } from './hands-locked.ts';
import { handsProved } from './hands-proved.ts';
import { handsRelieved } from './hands-relieved.ts';
import { hiddenOrder } from './hidden-order.ts';
import { inlineMarkup } from './inline-markup.ts';
import { instrumentFits } from './instrument-fits.ts';
import { labelAsTyped } from './label-as-typed.ts';
import { lazyLine } from './lazy-line.ts';
import { lettersPrinted } from './letters-printed.ts';
import { limitsCover } from './limits-cover.ts';
import { limitsFormula } from './limits-formula.ts';
import { limitsOrdered } from './limits-ordered.ts';
import { limitsQuantity } from './limits-quantity.ts';
import { limitsRestated } from './limits-restated.ts';
import { lockOff } from './lock-off.ts';
import { locksEnough } from './locks-enough.ts';
import { namesAmbiguous } from './names-ambiguous.ts';
import { namesKnown } from './names-known.ts';
import { namesPrinted } from './names-printed.ts';
import { noCircles } from './no-circles.ts';
import { noticeConflict } from './notice-conflict.ts';
import { noticeCrowd } from './notice-crowd.ts';
import { noticeElements } from './notice-elements.ts';
import { noticeForm } from './notice-form.ts';
import { noticeGrade } from './notice-grade.ts';
import { noticePlace } from './notice-place.ts';
import { noticeRepeated } from './notice-repeated.ts';
import { numberDoubtful } from './number-doubtful.ts';
import { oneAction } from './one-action.ts';
import { outcomeAnswered } from './outcome-answered.ts';
import { outcomeMeasured } from './outcome-measured.ts';
import { partNotListed } from './part-not-listed.ts';
import { partNotUsed } from './part-not-used.ts';
import { partRefitted } from './part-refitted.ts';
import { peopleClear } from './people-clear.ts';
import { peopleEnough } from './people-enough.ts';
import { plugKept } from './plug-kept.ts';
import { pointLocked } from './point-locked.ts';
import { pointRestored } from './point-restored.ts';
import { proofAgain } from './proof-again.ts';
import { proofBounded } from './proof-bounded.ts';
import { proofInOrder } from './proof-in-order.ts';
import { proofShows } from './proof-shows.ts';
import { protectionListed } from './protection-listed.ts';
import { quantityAsBullet } from './quantity-as-bullet.ts';
import { readingSaid } from './reading-said.ts';
import { referenceLeads } from './reference-leads.ts';
import { referenceTyped } from './reference-typed.ts';
import { registerFields } from './register-fields.ts';
import { repeatMeasures } from './repeat-measures.ts';
import { requiresMet } from './requires-met.ts';
import { returnTest } from './return-test.ts';
import { reverseSaid } from './reverse-said.ts';
import { runAll, runLibraryChecks, runProcedureChecks } from './run.ts';
import { sectionForm } from './section-form.ts';
import { sentenceLength } from './sentence-length.ts';
import { sentenceRead } from './sentence-read.ts';
import { shutdownFirst } from './shutdown-first.ts';
import { slackSaid } from './slack-said.ts';
import { startEstablished } from './start-established.ts';
import { stepReached } from './step-reached.ts';
import { strayInstruction } from './stray-instruction.ts';
import { temporaryLeft } from './temporary-left.ts';
import { temporaryOut } from './temporary-out.ts';
import { textDamage } from './text-damage.ts';
import { toldBeforeLive } from './told-before-live.ts';
import { toldBeforeLockout } from './told-before-lockout.ts';
import { toolNotListed } from './tool-not-listed.ts';
import { toolNotUsed } from './tool-not-used.ts';
import { toolsOut } from './tools-out.ts';
import { torqueAsRegistered } from './torque-as-registered.ts';
import { torqueCondition } from './torque-condition.ts';
import { torqueReached } from './torque-reached.ts';
import { tryHasResult } from './try-has-result.ts';
import { vagueWording } from './vague-wording.ts';
import { variantsKnown } from './variants-known.ts';
import { visitHolds } from './visit-holds.ts';
import { wayOut } from './way-out.ts';
import { yamlComment } from './yaml-comment.ts';

export const checks: readonly Check[] = [
  adjustedAgain,
  asideEntered,
  attributes,
  beltSaid,
  branchesMixed,
  calloutExplained,
  calloutThere,
  claimsTrue,
  clearBeforeTry,
  closesWhatIsOpen,
  consumableNotListed,
  consumableNotUsed,
  controlLocked,
  controlsOff,
  coverRefitted,
  coversBeforeLive,
  documentCited,
  documentNumber,
  dualAgree,
  endAsSaid,
  energyAnswered,
  fastenerTight,
  figureLegible,
  figureThere,
  figureWhole,
  filmFits,
  forceNotMass,
  frontMatterFields,
  frontMatterForm,
  guideForm,
  guideLists,
  handsIsolated,
  handsLocked,
  handsProved,
  handsRelieved,
  hiddenOrder,
  inlineMarkup,
  instrumentFits,
  labelAsTyped,
  lazyLine,
  lettersPrinted,
  limitsCover,
  limitsFormula,
  limitsOrdered,
  limitsQuantity,
  limitsRestated,
  lockOff,
  locksEnough,
  namesAmbiguous,
  namesKnown,
  namesPrinted,
  noCircles,
  noticeConflict,
  noticeCrowd,
  noticeElements,
  noticeForm,
  noticeGrade,
  noticePlace,
  noticeRepeated,
  numberDoubtful,
  oneAction,
  outcomeAnswered,
  outcomeMeasured,
  partNotListed,
  partNotUsed,
  partRefitted,
  peopleClear,
  peopleEnough,
  plugKept,
  pointLocked,
  pointRestored,
  proofAgain,
  proofBounded,
  earthAfterTest,
  proofInOrder,
  proofShows,
  protectionListed,
  quantityAsBullet,
  readingSaid,
  referenceLeads,
  referenceTyped,
  registerFields,
  repeatMeasures,
  requiresMet,
  returnTest,
  reverseSaid,
  sectionForm,
  sentenceLength,
  sentenceRead,
  shutdownFirst,
  slackSaid,
  startEstablished,
  stepReached,
  strayInstruction,
  temporaryLeft,
  temporaryOut,
  textDamage,
  toldBeforeLive,
  toldBeforeLockout,
  toolNotListed,
  toolNotUsed,
  toolsOut,
  torqueAsRegistered,
  torqueCondition,
  torqueReached,
  tryHasResult,
  vagueWording,
  variantsKnown,
  visitHolds,
  wayOut,
  yamlComment,
];

/** Tests only: `without` leaves one check out. Safety findings have no off switch. */
export interface RunOptions {
  readonly without?: string;
}

export function runChecks(library: LibraryFacts, options: RunOptions = {}): readonly Finding[] {
  return runAll(chosen(options), library);
}

/** What one edit of a procedure asks for. `alone`: not every file that it names has been read. */
export function checkProcedure(facts: ProcedureFacts, library: LibraryFacts, alone = false): readonly Finding[] {
  return runProcedureChecks(alone ? checks.filter((check) => check.scope !== 'procedure' || !check.acrossFiles) : checks, facts, library);
}

/** What holds between files. */
export function checkBetweenFiles(library: LibraryFacts): readonly Finding[] {
  return runLibraryChecks(checks, library);
}

function chosen(options: RunOptions): readonly Check[] {
  return options.without === undefined ? checks : checks.filter((check) => check.id !== options.without);
}
