/**
 * Makes the instructions of a procedure, or of the procedures of a visit, from its readings. What is called or repeated is copied where
 * it is called, so that the graph needs no stack.
 */
import { type Instruction, type Program, placeOf } from '../code.ts';
import type { FlowPlace, ReadProcedure } from '../model.ts';
import { calledSections, lastNormalStep, sectionAfter, topSteps } from './sections-of.ts';
import { compileSection, compileStep } from './steps.ts';
import {
  type Again,
  type CompileInput,
  emit,
  endHere,
  type Hole,
  jumpTo,
  newUnit,
  type Raw,
  type Sheet,
  settleJumps,
  type Unit,
} from './unit.ts';

export function compile(input: CompileInput): Program {
  const sheet: Sheet = { code: [], cut: false };
  const end = compileWhole(newUnit(input.procedure, input.others, sheet, [], undefined, AGAIN));
  const { code, cut } = sheet;
  return { code: code as unknown as Instruction[], entry: end.entry, steps: input.procedure.labels.steps, visit: false, cut };
}

/** Several procedures one after the other, as a visit walks them. Between two of them the technician may stop. */
export function compileVisit(procedures: readonly ReadProcedure[], others: CompileInput['others']): Program {
  const sheet: Sheet = { code: [], cut: false };
  const { code } = sheet;
  const [first] = procedures;
  if (first)
    code.push({
      op: 'enter',
      place: { file: first.file, span: first.head.idSpan },
      number: first.head.id,
      startsWith: first.head.startsWith,
      next: 1,
    } as unknown as Raw);
  procedures.forEach((read, index) => {
    const ends: { hole: Hole; place: FlowPlace }[] = [];
    const onEnd = (place: FlowPlace): void => {
      const raw: Raw = { op: 'jump', place } as Raw;
      code.push(raw);
      ends.push({ hole: (target) => (raw.next = target), place });
    };
    compileWhole(newUnit(read, others, sheet, [], onEnd, AGAIN));
    const next = procedures[index + 1];
    // Each end asks for itself, so that a finding stands where the walk ended.
    const after = code.length + ends.length;
    ends.forEach(({ hole, place }, at) => {
      hole(code.length);
      code.push({ op: 'between', place, number: next?.head.id, startsWith: next?.head.startsWith ?? '', next: after } as unknown as Raw);
      if (at === ends.length - 1 && next === undefined) code.push({ op: 'jump', place, next: after } as unknown as Raw);
    });
  });
  const steps = procedures.flatMap((read) => read.labels.steps);
  return { code: code as unknown as Instruction[], entry: 0, steps, visit: true, cut: sheet.cut };
}

function compileWhole(unit: Unit): { entry: number; ends: Hole[] } {
  const entry = unit.code.length;
  const called = calledSections(unit);
  for (const section of unit.read.sections) {
    if (section.prose || section.aside) continue;
    const steps = topSteps(unit, section);
    if (steps.length === 0) continue;
    if (called.has(section.id) && unit.open.length > 0)
      emit(unit, {
        op: 'violation',
        place: placeOf(unit.read.file, steps[0]?.at, section.titleSpan),
        rule: 'falls-into-aside',
        thing: section.title,
        missing: [],
      });
    compileSection(unit, section, steps);
  }
  const last = unit.read.steps.at(-1)?.at;
  const endSpan = last ? last.step.span : { start: 0, end: 0 };
  endHere(unit, 'normal', placeOf(unit.read.file, lastNormalStep(unit) ?? last, endSpan));
  // Asides that are jumped to come after the end; falling off one goes on with the next section in order.
  for (let again = true; again; ) {
    again = false;
    for (const section of unit.read.sections) {
      if (!section.aside || unit.scope.sections.has(section.id)) continue;
      const wanted = unit.scope.waiting.some((jump) => jump.section === section.id || (jump.step && jump.step.section.id === section.id));
      if (!wanted) continue;
      again = true;
      compileSection(unit, section, topSteps(unit, section));
      const follows = sectionAfter(unit, section);
      if (follows) jumpTo(unit, placeOf(unit.read.file, undefined, section.titleSpan), { section: follows.id });
      else endHere(unit, 'normal', placeOf(unit.read.file, topSteps(unit, section).at(-1)?.at, section.titleSpan));
    }
  }
  settleJumps(unit);
  return { entry, ends: [] };
}

const AGAIN: Again = { step: compileStep, whole: compileWhole };
