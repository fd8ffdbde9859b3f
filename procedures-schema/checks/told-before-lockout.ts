/** People are told before controls are applied: (c)(9). */
import type { Span } from '../finding.ts';
import type { LabelledStep } from '../numbering/index.ts';
import { aboutOf } from '../reading/index.ts';
import type { ProcedureCheck, ProcedureFacts } from './check.ts';
import { eachSentence } from './visit.ts';

export const toldBeforeLockout: ProcedureCheck = {
  id: 'told-before-lockout',
  scope: 'procedure',
  severity: 'warning',
  question: 'Are the people who use the machine told before it is locked out?',
  why: 'An operator who was not told looks for the fault, finds the isolator off, and switches it on.',
  source: '29 CFR 1910.147(c)(9); Appendix A, step 1; cord and plug are outside it, (a)(2)(iii)(A)',
  cases: [
    { name: 'nobody is told', finds: 1, change: [['Tell the people at the mixer that it will be stopped', '']] },
    {
      name: 'nobody is told, and nothing is locked before a hand goes in',
      finds: 1,
      change: [
        ['Tell the people at the mixer that it will be stopped', ''],
        ['Put your lock and tag on the [main isolator] and', ''],
      ],
    },
    {
      name: 'told after the stop, before the lock',
      finds: 0,
      change: [
        ['Stop the mixer with', '#. Stop the mixer with the [stop button].\n#. Tell the operator that the mixer will be locked out.'],
      ],
    },
  ],
  *run(facts) {
    if (facts.head.startsWith === 'opened and locked out') return;
    const place = firstControl(facts);
    if (!place) return;
    yield {
      file: facts.file,
      span: place.span,
      message: `Step ${place.step.fullLabel} ${place.does} the machine${place.does === 'locks' ? ' out' : ''}, and nobody was told.`,
      actual: 'no word to the people at the machine',
      expected: 'a step before this one that tells them that the machine will be stopped and locked out',
      steps: [place.step.fullLabel],
    };
  },
};

/** The first lock, or the first isolation where a hand goes in without any; undefined where somebody is told before. */
function firstControl(facts: ProcedureFacts): { step: LabelledStep; span: Span; does: 'locks' | 'isolates' } | undefined {
  const plugs = new Set(facts.machines.flatMap(({ points }) => points.filter(({ plug }) => plug).map(({ name }) => name)));
  let isolated: { step: LabelledStep; span: Span; does: 'isolates' } | undefined;
  for (const { sentence, step, span } of eachSentence(facts.read)) {
    // What was not read may tell them; a lock that was not read is one all the same.
    if (sentence.status === 'unread') {
      const { subjects } = aboutOf(sentence);
      if (subjects.has('tell')) return undefined;
      if (subjects.has('lock')) return { step, span, does: 'locks' };
    }
    if (sentence.status !== 'read') continue;
    for (const { kind, things, contact } of sentence.actions) {
      if (kind === 'tell' || kind === 'call') return undefined;
      const atPlug = things.length > 0 && things.every(({ thing }) => plugs.has(thing.name));
      if (kind === 'lock' && !atPlug) return { step, span, does: 'locks' };
      if (kind === 'isolate' && !atPlug) isolated ??= { step, span, does: 'isolates' };
      if (contact && isolated) return isolated;
    }
  }
  return undefined;
}
