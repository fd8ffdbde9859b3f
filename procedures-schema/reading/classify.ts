/**
 * From a verb phrase to actions, by what its sense does to which kind of thing. Returns a reason where the words do not decide:
 * wrong is worse than unread. Long because it is one table of senses by kinds of thing. Knows senses and kinds, no word of any language but through the lexicon.
 */
import type { Thing } from '../registers/index.ts';
import type { Action, ActionKind, ThingUse } from './action.ts';
import { HANDS_AT_WORK } from './action-kinds.ts';
import type { Equipment } from './equipment.ts';
import { isTime } from './items.ts';
import type { Phrase } from './phrase.ts';
import type { Tables } from './tables.ts';

/** What stands around the phrase in its sentence. */
export interface Around {
  /** The sentence ends in a colon: what it is about stands below. */
  readonly hangs: boolean;
  /** What "it" stands for, by sentence order. */
  readonly it: readonly ThingUse[];
  /** Points that the sentence before moved, if it named nothing else: what "both" stands for. */
  readonly them: readonly ThingUse[];
  /** The point named last in this sentence: what a lock goes on when none is said. */
  readonly point: ThingUse | undefined;
  /** The only point the sentence names: what a lock is taken off when none is said. */
  readonly only: ThingUse | undefined;
  readonly result: string | undefined;
  /** "to prove that", "to check that": trying, not starting. */
  readonly proving: boolean;
  readonly testRun: boolean;
  /** A source that is known to be live is spoken of. */
  readonly known: boolean;
  readonly outside: boolean;
  readonly stage: Action['stage'];
  readonly manner: string | undefined;
}

export type Classified = { readonly actions: readonly Action[] } | { readonly why: string };

const HANDS: readonly ActionKind[] = [...HANDS_AT_WORK, 'put-in', 'take-out'];

export function classify(phrase: Phrase, around: Around, equipment: Equipment, tables: Tables): Classified {
  const ambiguous = phrase.ambiguous[0];
  if (ambiguous) return { why: `"${ambiguous.text}" leads to two things` };
  const maker = new Maker(phrase, around, equipment, tables);
  return maker.make();
}

/** Where a lock hangs that holds nothing. */
const AWAY: ReadonlySet<string> = new Set(['beside', 'near', 'under', 'underneath', 'behind', 'above', 'below', 'by', 'past', 'from']);
/** Manner of taking off locks without a word of where they are: from every point that carries one. */
export const WHEREVER = 'wherever it is';
/** Manner of trying an instrument where it must show something. */
export const KNOWN_SOURCE = 'on a known source';
/** The reason given when a lock has no point: bullets may name them. */
export const NO_POINT = 'it is not said what the lock goes on';

class Maker {
  private readonly phrase: Phrase;
  private readonly around: Around;
  private readonly equipment: Equipment;
  private readonly tables: Tables;
  private readonly objects: readonly ThingUse[];
  private readonly tools: readonly ThingUse[];

  constructor(phrase: Phrase, around: Around, equipment: Equipment, tables: Tables) {
    this.phrase = phrase;
    this.around = around;
    this.equipment = equipment;
    this.tables = tables;
    this.objects =
      phrase.objects.length === 0 && phrase.pronoun
        ? (phrase.many ? around.it : around.it.slice(-1)).map((use) => ({ ...use, at: phrase.at, end: phrase.end }))
        : phrase.objects;
    this.tools = phrase.places.filter((place) => tables.lexicon.instrument.includes(place.preposition)).flatMap((place) => [...place.uses]);
  }

  make(): Classified {
    const { phrase } = this;
    if (
      phrase.pronoun &&
      phrase.objects.length === 0 &&
      this.around.it.length === 0 &&
      !(phrase.many && this.around.them.length > 1) &&
      !['wait', 'continue', 'leave', 'keep', 'tell'].includes(phrase.sense) &&
      // "Stop it with the stop key": the control says what stops.
      !(['stop', 'off', 'start', 'on'].includes(phrase.sense) && this.tools.some((use) => use.thing.kind === 'control'))
    )
      return { why: 'it is not clear what "it" stands for' };
    if (this.putsToolsAway()) return { actions: [this.action('take-tools', [], { contact: false })] };
    if (this.locksNamed()) {
      const locks = this.locks();
      if (locks) return locks;
    }
    // "Pull the plug": out of its socket.
    if (phrase.base === 'pull' && this.objects.length > 0 && this.objects.every((use) => this.equipment.isPlug(use.thing.name)))
      return this.move(['out', 'unplugged', 'off']);
    // "Pull the fuse", "draw the pin": out, where the register says what that is.
    if (
      ['pull', 'draw'].includes(phrase.base) &&
      phrase.particle === '' &&
      this.objects.length > 0 &&
      this.objects.every((use) => use.thing.kind === 'point' && this.equipment.move(use.thing.name, 'out') !== undefined)
    )
      return this.move(['out']);
    const screws = this.itsScrews();
    if (screws) return screws;
    switch (phrase.sense) {
      case 'off':
        return (
          this.atPoint() ?? (this.objects.some((use) => use.thing.kind === 'point') ? this.move(['off', 'shut', 'unplugged']) : this.stop())
        );
      case 'on':
        return (
          this.atPoint() ??
          (this.objects.some((use) => use.thing.kind === 'point') ? this.move(['on', 'open', 'plugged in']) : this.start())
        );
      case 'stop':
        return this.stop();
      case 'start':
      case 'run':
        return this.start();
      case 'press':
      case 'operate':
      case 'try':
        return this.objects.length === 0 && phrase.base === 'tread' ? this.onControl() : this.press();
      case 'let-go':
        return this.objects.every((use) => use.thing.kind === 'control') && this.objects.length > 0
          ? this.done('control', this.objects)
          : this.cannot();
      case 'open':
        return this.byKind({ tool: () => this.inUse(), point: () => this.move(['open']), cover: () => this.done('open', this.objects) });
      case 'shut':
        return this.byKind({ tool: () => this.inUse(), point: () => this.move(['shut']), cover: () => this.done('close', this.objects) });
      case 'in':
        return this.byKind({
          point: () => this.move(['in']),
          tool: () => this.temporary('put-in'),
          cover: () => this.done('close', this.objects),
          part: () => this.done('close', this.objects),
          replacement: () => this.done('close', this.objects),
        });
      case 'out':
        return this.byKind({
          point: () => this.move(['out']),
          tool: () => this.temporary('take-out'),
          // "Swing the guard aside."
          cover: () => this.done('open', this.objects),
        });
      case 'unplug':
        return this.byKind({ point: () => this.move(['unplugged', 'off']), part: () => this.done('open', this.objects) });
      case 'plug-in':
        return this.byKind({ point: () => this.move(['plugged in', 'on', 'in']), part: () => this.done('close', this.objects) });
      case 'set':
      case 'turn':
        return this.set();
      case 'see':
        return this.seen();
      case 'raise':
      case 'lower':
        // "Lift the deck plate", "lower the lid".
        if (this.objects.length > 0 && this.objects.every((use) => use.thing.kind === 'cover') && phrase.unknown.length === 0)
          return this.done(phrase.sense === 'raise' ? 'open' : 'close', this.objects);
        // "Put the lever down", where that is a position of it.
        if (this.objects.length > 0 && this.objects.every((use) => use.thing.kind === 'point') && phrase.places.length === 0)
          return this.move([phrase.sense === 'raise' ? 'up' : 'down']);
        // "Put down the pan": a tool is laid ready.
        if (phrase.base === 'put' && this.objects.every((use) => use.thing.kind === 'tool')) return this.temporary('put-in');
        if (this.tools.some((use) => use.thing.kind === 'control')) return this.physical('move');
        return this.byKind({
          part: () => this.done('move', this.objects),
          machine: () => this.done('move', this.objects, { contact: false }),
          measurement: () => this.done('adjust', this.objects),
        });
      case 'isolate':
        return this.isolate();
      case 'lock':
      case 'tag':
      case 'lock-and-tag':
        return this.lockObjects();
      case 'unlock':
      case 'untag':
        return this.byKind({ point: () => this.done(phrase.sense === 'unlock' ? 'unlock' : 'untag', this.objects) });
      case 'bleed':
        return this.bleed();
      case 'restrain':
        return this.restrain();
      case 'release':
        return this.byKind({ point: () => this.move(['out']), control: () => this.done('control', this.objects) });
      case 'prove':
      case 'test':
        return this.prove();
      case 'energise':
        return this.makeEnergy(this.objects);
      case 'restore':
        return this.byKind({ point: () => this.move(['on', 'open', 'plugged in']) });
      case 'remove':
        return this.remove();
      case 'fit':
        return this.fit();
      case 'put':
        return this.put();
      case 'replace':
        return phrase.renewed || this.tools.some((use) => use.thing.kind === 'replacement')
          ? this.renew()
          : this.cannot('"replace" may be to put back or to renew');
      case 'renew':
        return this.renew();
      case 'loosen':
        return this.byKind({
          fastener: () => this.done('loosen', this.objects),
          // "Undo the pin": what holds by being in.
          point: () => this.move(['out']),
          part: () =>
            ['loosen', 'slacken', 'undo'].includes(phrase.base)
              ? this.done('loosen', this.objects)
              : phrase.base === 'unscrew'
                ? this.done('open', this.objects)
                : this.cannot(),
          cover: () => this.done('open', this.objects),
        });
      case 'tighten':
        return this.byKind({ fastener: () => this.done('tighten', this.objects), part: () => this.done('tighten', this.objects) });
      case 'adjust':
        return this.byKind({
          part: () => this.done('adjust', this.objects),
          fastener: () => this.done('adjust', this.objects),
          measurement: () => this.done('adjust', this.objects),
          control: () => this.done('adjust', this.objects),
          cover: () => this.done('adjust', this.objects),
        });
      case 'clean':
        // "Dust the belts with talc" puts something on; "dust the belts" takes it off.
        if (phrase.base === 'dust' && this.tools.some((use) => use.thing.kind === 'consumable')) return this.cannot();
        return this.physical('clean');
      case 'apply':
        return this.apply();
      case 'move':
        return phrase.position || this.objects[0]?.thing.kind === 'control' || this.objects[0]?.thing.kind === 'point'
          ? this.set()
          : this.physical('move');
      case 'handle':
        return this.handle();
      case 'clear':
        return this.clear();
      case 'measure':
        return this.measure();
      case 'read':
        return this.read();
      case 'look':
        return this.sense(false);
      case 'listen':
        return this.sense(false);
      case 'feel':
        return this.sense(true);
      case 'watch':
        return this.named('observe', false);
      case 'check':
        return this.check();
      case 'record':
        if (this.objects.some(({ thing }) => ['zone', 'cover', 'part', 'fastener'].includes(thing.kind)) && phrase.base === 'enter')
          return this.objects.every(({ thing }) => thing.kind === 'zone') ? this.done('handle', this.objects) : this.cannot();
        // "Fill in the job card"; "fill in the gap" is none.
        if (
          phrase.base === 'fill' &&
          !/\b(?:card|sheet|form|record|log|report|label|tag|book|list|table|column|box)s?\b/i.test(phrase.text)
        )
          return this.cannot();
        // What is written down need not be registered; "enter the pit" is no writing.
        return phrase.unknown.length > 0 &&
          this.objects.length === 0 &&
          phrase.nouns.length === 0 &&
          !['write', 'record', 'fill', 'sign'].includes(phrase.base)
          ? this.cannot()
          : { actions: [this.action('record', this.objects, { contact: false })] };
      case 'tell':
        return { actions: [this.action('tell', [], { contact: false })] };
      case 'send':
        return phrase.nouns.includes('people') ||
          phrase.places.some((place) => place.preposition === 'from' || place.preposition === 'out') ||
          phrase.objects.some((use) => use.thing.kind === 'role')
          ? { actions: [this.action('clear-people', [], { contact: false })] }
          : this.cannot();
      case 'collect':
        return phrase.nouns.includes('tools') || this.allTools()
          ? { actions: [this.action('take-tools', [], { contact: false })] }
          : this.cannot();
      case 'wear':
        return this.byKind({ tool: () => this.done('protect', this.objects, { contact: false }) });
      case 'stay':
        if ((this.objects.length > 0 || phrase.unknown.length > 0) && !/\b(?:clear|back|away|aside)\b/.test(phrase.text))
          return this.cannot();
        return phrase.nouns.includes('people')
          ? { actions: [this.action('clear-people', [], { contact: false })] }
          : { actions: [this.action('stand-clear', [], { contact: false })] };
      case 'keep':
        return this.keep();
      case 'leave':
        return this.goesOnDoing() ? this.cannot() : { actions: [] };
      case 'wait':
        return { actions: [this.action('wait', this.objects, { contact: false, ...(atMost(phrase.text) ? { amounts: [] } : {}) })] };
      case 'use':
        if (phrase.particle !== '') return this.temporary('put-in');
        if (this.makers(this.objects).length > 0) return this.makeEnergy(this.objects);
        return { actions: [this.action('use', this.objects, { contact: false })] };
      case 'weak':
        return this.weak();
      default:
        return this.cannot();
    }
  }

  /** Verbs that decide nothing: only a hand laid on something, or a position said, can be read. */
  private weak(): Classified {
    const { phrase } = this;
    if (phrase.position !== undefined && this.objects.length > 0) return this.set();
    if (phrase.base === 'step' && this.uses('on').some((use) => use.thing.kind === 'control')) return this.onControl();
    // "Pull the lever both ways: nothing may move."
    const pulled = this.objects.length > 0 && this.objects.every((use) => use.thing.kind === 'control');
    if (pulled && phrase.particle === '' && phrase.unknown.length === 0 && (this.around.proving || this.showsNothing()))
      return this.done('try-out', this.objects, { contact: false });
    // "Run the bolts in by hand."
    if (
      phrase.base === 'run' &&
      this.objects.length > 0 &&
      this.objects.every((use) => use.thing.kind === 'fastener') &&
      phrase.unknown.length === 0
    )
      return this.done(this.around.stage === undefined ? 'close' : 'tighten', this.objects);
    const where = this.uses('at', 'on', 'along', 'over', 'against', 'across').filter((use) =>
      ['part', 'cover', 'fastener'].includes(use.thing.kind),
    );
    const it = phrase.places.some((place) => place.pronoun)
      ? this.around.it.filter((use) => ['part', 'cover', 'fastener'].includes(use.thing.kind))
      : [];
    const touched = where.length > 0 ? where : it;
    if (touched.length === 0 || this.objects.length > 0 || phrase.unknown.length > 0) return this.cannot();
    return this.done(phrase.nouns.includes('work') ? 'sense' : 'handle', touched, { contact: true });
  }

  // ---------------------------------------------------------------- making actions

  private action(kind: ActionKind, things: readonly ThingUse[], more: Partial<Action> = {}): Action {
    const { phrase, around } = this;
    const inHand = this.tools.filter((use) => ['tool', 'consumable', 'replacement', 'gauge'].includes(use.thing.kind));
    return {
      kind,
      things,
      with: inHand,
      contact: HANDS.includes(kind),
      outside: around.outside,
      amounts: phrase.amounts.map(({ text, at, end }) => ({ text, at, end })),
      when: [],
      at: phrase.at,
      end: phrase.end,
      ...(around.result === undefined ? {} : { result: around.result }),
      ...(around.manner === undefined ? {} : { manner: around.manner }),
      ...(kind === 'tighten' && around.stage ? { stage: around.stage } : {}),
      ...more,
    };
  }

  private done(kind: ActionKind, things: readonly ThingUse[], more: Partial<Action> = {}): Classified {
    if (things.length === 0) return this.cannot();
    return { actions: [this.action(kind, things, more)] };
  }

  private cannot(why?: string): Classified {
    const unknown = this.phrase.unknown[0];
    return { why: why ?? (unknown ? `"${unknown.text}" is no registered name` : `"${this.phrase.text}" could not be read`) };
  }

  /** "Tighten its screws", "secure it with its four screws": those of what was handled last. */
  private itsScrews(): Classified | undefined {
    const { phrase, around } = this;
    const said = /\b(?:its|their) (?:(?:\w+) )?(?:screws?|bolts?|nuts?|clips?)\W*$/i.test(phrase.text);
    const last = around.it.at(-1);
    const own = last && said ? this.equipment.screwsOf(last.thing.name) : undefined;
    if (own === undefined) return undefined;
    const things = [{ thing: own, at: phrase.at, end: phrase.end }];
    const only = phrase.objects.length === 0 && phrase.nouns.length === 0;
    if (only && !phrase.pronoun && phrase.unknown.length === 1 && phrase.places.length === 0) {
      if (phrase.sense === 'tighten') return this.done('tighten', things);
      if (phrase.sense === 'loosen') return this.done('loosen', things);
    }
    if (only && phrase.pronoun && phrase.base === 'secure' && phrase.places.length === 1 && phrase.places[0]?.preposition === 'with')
      return this.done('tighten', things);
    return undefined;
  }

  /** "Refit the cover and its screws": screws that go with what is named are no strangers. */
  private ownScrews(): boolean {
    const { unknown, text } = this.phrase;
    const covers = this.objects.length > 0 && this.objects.every(({ thing }) => thing.kind === 'cover' || thing.kind === 'part');
    return covers && unknown.every((one) => /^(?:\w+ )?(?:screws?|bolts?|nuts?)$/i.test(one.text)) && /\b(?:its|their) \w*/i.test(text);
  }

  /** All objects must be of kinds the sense acts on; unknown words beside them make it unread. */
  private byKind(make: Partial<Record<Thing['kind'], () => Classified>>): Classified {
    const [first] = this.objects;
    if (!first || (this.phrase.unknown.length > 0 && !this.ownScrews())) return this.cannot();
    const own = make[first.thing.kind];
    if (!own || this.objects.some((use) => use.thing.kind !== first.thing.kind && make[use.thing.kind] === undefined)) return this.cannot();
    if (this.objects.every((use) => use.thing.kind === first.thing.kind)) return own();
    // Objects of several kinds under one verb: each kind for itself.
    const actions: Action[] = [];
    for (const kind of new Set(this.objects.map((use) => use.thing.kind))) {
      const part = new Maker(
        { ...this.phrase, objects: this.objects.filter((use) => use.thing.kind === kind) },
        this.around,
        this.equipment,
        this.tables,
      ).make();
      if ('why' in part) return part;
      actions.push(...part.actions);
    }
    return { actions };
  }

  private physical(kind: ActionKind): Classified {
    // "Slide the new blade into the holder", "push the rod back into the cylinder": put in, not moved about.
    const into =
      this.phrase.places.some((place) => ['into', 'onto'].includes(place.preposition)) || ['in', 'on'].includes(this.phrase.particle);
    if (
      kind === 'move' &&
      into &&
      this.objects.length > 0 &&
      this.objects.every(
        (use) =>
          use.thing.kind === 'replacement' ||
          (use.thing.kind === 'part' &&
            (this.phrase.base === 'slide' || this.phrase.particle === 'back' || /\bback\b/.test(this.phrase.text))),
      )
    )
      return this.done('close', this.objects);
    // "Slip the new belt over the pulleys."
    if (
      kind === 'move' &&
      ['slip', 'slide'].includes(this.phrase.base) &&
      this.uses('over', 'onto', 'on').some((use) => ['part', 'fastener'].includes(use.thing.kind)) &&
      this.objects.length > 0 &&
      this.objects.every((use) => use.thing.kind === 'part' || use.thing.kind === 'replacement') &&
      this.phrase.unknown.length === 0
    )
      return this.fit();
    if ((kind === 'move' || kind === 'handle') && this.objects.length > 0 && this.objects.every((use) => use.thing.kind === 'tool'))
      return this.phrase.base !== 'lay' && this.objects.some((use) => this.equipment.tool(use.thing.name)?.contact)
        ? this.cannot()
        : this.inUse();
    const controls = this.tools.filter((use) => use.thing.kind === 'control');
    if (kind === 'move' && controls.length > 0) return this.done(this.around.testRun ? 'test-run' : 'start', controls, { contact: false });
    // "Scrape the dust off the blades": the hand is where the blades are, whatever the dust is.
    const dirt = kind === 'clean' && this.objects.every((use) => use.thing.kind === 'consumable');
    if ((this.objects.length === 0 || dirt) && (kind === 'clean' || kind === 'handle')) {
      const where = this.uses(
        'off',
        'from',
        'on',
        'at',
        'of',
        'in',
        'along',
        'against',
        'between',
        'through',
        'around',
        'under',
        'over',
      ).filter((use) => ['part', 'cover', 'fastener', 'zone'].includes(use.thing.kind));
      if (where.length > 0) return this.done(kind, where);
    }
    if (this.phrase.unknown.length > 0) return this.cannot();
    const things = this.objects.filter((use) =>
      ['part', 'cover', 'fastener', 'zone', 'gauge', 'control', 'replacement', 'machine'].includes(use.thing.kind),
    );
    const points = this.objects.filter((use) => use.thing.kind === 'point');
    if (points.length > 0 && kind !== 'clean') return this.cannot();
    if (things.length + points.length !== this.objects.length)
      return this.objects.every((use) => use.thing.kind === 'tool') && this.objects.length > 0 && kind === 'handle'
        ? { actions: [this.action('use', this.objects, { contact: false })] }
        : this.cannot();
    return this.done(kind, this.objects);
  }

  private move(wanted: readonly string[]): Classified {
    const actions: Action[] = [];
    for (const use of this.objects) {
      if (use.thing.kind !== 'point') return this.cannot();
      const moved = wanted.map((position) => this.equipment.move(use.thing.name, position)).find((one) => one !== undefined);
      if (!moved) return this.cannot(`the register does not say what "${wanted[0]}" is for the ${use.thing.name}`);
      const before = actions.at(-1);
      if (before?.kind === moved.kind && before.position === moved.position)
        actions[actions.length - 1] = { ...before, things: [...before.things, use] };
      else actions.push(this.action(moved.kind, [use], { position: moved.position, contact: false }));
    }
    return actions.length === 0 || this.phrase.unknown.length > 0 ? this.cannot() : { actions };
  }

  private temporary(kind: 'put-in' | 'take-out'): Classified {
    const own = this.objects.filter((use) => this.equipment.tool(use.thing.name)?.temporary);
    if (own.length === this.objects.length && own.length > 0) return this.done(kind, own);
    if (kind === 'put-in' && this.objects.length > 0 && this.objects.every((use) => this.equipment.tool(use.thing.name)?.protective))
      return this.done('protect', this.objects, { contact: false });
    return this.objects.every((use) => use.thing.kind === 'tool')
      ? { actions: [this.action('use', this.objects, { contact: false })] }
      : this.cannot();
  }

  // ---------------------------------------------------------------- senses

  private stop(): Classified {
    const control = [...this.objects, ...this.tools, ...this.uses('at', 'on')].find((use) => use.thing.kind === 'control');
    const stops = control && (this.equipment.control(control.thing.name)?.stops.length ?? 0) > 0;
    if (control && !stops && this.phrase.sense === 'off') return this.done('control', [control], { position: 'off', contact: false });
    if (control && stops) return this.done('shut-down', [control], { contact: false });
    const machine =
      this.phrase.nouns.includes('machine') || this.objects.some((use) => ['machine', 'part', 'model'].includes(use.thing.kind));
    if (!machine || this.phrase.unknown.length > 0) return this.cannot();
    return {
      actions: [
        this.action(
          'shut-down',
          this.objects.filter((use) => use.thing.kind === 'machine'),
          { contact: false },
        ),
      ],
    };
  }

  private start(): Classified {
    // "Start both screws by hand": into their threads.
    if (this.objects.length > 0 && this.objects.every((use) => use.thing.kind === 'fastener') && this.phrase.unknown.length === 0)
      return this.done(this.around.stage === undefined ? 'close' : 'tighten', this.objects);
    const control = [...this.objects, ...this.tools].filter((use) => use.thing.kind === 'control');
    const machine =
      this.phrase.nouns.some((noun) => noun === 'machine' || noun === 'test') ||
      this.objects.some((use) => ['machine', 'part', 'model'].includes(use.thing.kind));
    if (control.length === 0 && !machine) return this.cannot();
    if (this.phrase.unknown.length > 0 && !this.around.testRun) return this.cannot();
    return { actions: [this.action(this.around.testRun ? 'test-run' : 'start', control, { contact: false })] };
  }

  private inUse(): Classified {
    // "Try the meter on a source that is known to be live": what it shows afterwards counts. semantics.md 6.
    const { text, sense } = this.phrase;
    const known = ['try', 'test', 'prove'].includes(sense) && (this.around.known || /\bagain\b/i.test(text));
    return { actions: [this.action('use', this.objects, { contact: false, ...(known ? { manner: KNOWN_SOURCE } : {}) })] };
  }

  private showsNothing(): boolean {
    return (
      this.around.result !== undefined && /\b(?:not|no|nothing|neither|none|never|still|dead|stays?|without)\b/i.test(this.around.result)
    );
  }

  private onControl(): Classified {
    const controls = this.uses('on').filter((use) => use.thing.kind === 'control');
    return new Maker({ ...this.phrase, sense: 'press', objects: controls, places: [] }, this.around, this.equipment, this.tables).press();
  }

  private press(): Classified {
    if (this.objects.length > 0 && this.objects.every((use) => use.thing.kind === 'part' || use.thing.kind === 'replacement'))
      return this.phrase.sense === 'press' ? this.physical('handle') : this.cannot();
    if (this.phrase.sense === 'try' && this.objects.length > 0 && this.objects.every((use) => use.thing.kind === 'tool'))
      return this.inUse();
    // "Push the lever down."
    const levers = this.objects.length > 0 && this.objects.every((use) => use.thing.kind === 'point');
    if (levers && this.phrase.position !== undefined && this.phrase.sense === 'press') return this.set();
    const controls = this.objects.filter((use) => use.thing.kind === 'control');
    if (controls.length === 0 || controls.length !== this.objects.length || this.phrase.unknown.length > 0) return this.cannot();
    if (this.phrase.sense === 'try' || this.around.proving || this.showsNothing())
      return this.done('try-out', controls, { contact: false });
    if (this.around.testRun) return this.done('test-run', controls, { contact: false });
    if (this.phrase.position !== undefined) return this.done('control', controls, { position: this.phrase.position, contact: false });
    const stops = controls.every((use) => (this.equipment.control(use.thing.name)?.stops.length ?? 0) > 0);
    const starts = controls.every((use) => {
      const control = this.equipment.control(use.thing.name);
      return control !== undefined && (control.starts.length > 0 || control.holdToRun);
    });
    if (stops) return this.done('shut-down', controls, { contact: false });
    return starts ? this.done('start', controls, { contact: false }) : this.done('control', controls, { contact: false });
  }

  /** "Set the knob to run", "turn the isolator off", "put the lever in neutral". */
  private set(): Classified {
    const { phrase } = this;
    const to = phrase.position ?? this.namedPosition();
    const [first] = this.objects;
    if (!first || phrase.unknown.length > 0) return this.cannot();
    if (first.thing.kind === 'point') {
      if (to !== undefined) return this.move([to]);
      // A prop or pin has one way to be set; a valve has two.
      const holds = this.objects.every((use) => this.equipment.roles(use.thing.name).join() === 'restrain');
      return holds && ['set', 'put', 'place', 'fit', 'insert'].includes(phrase.base) ? this.move(['in']) : this.cannot();
    }
    if (first.thing.kind === 'control') {
      if (this.around.proving) return this.done('try-out', this.objects, { contact: false });
      // "Set the switch to hand: the pump must not start": tried, and left there.
      if (to !== undefined && this.around.result !== undefined && /\b(?:must|may) not\b|\bnothing\b|^no\b/i.test(this.around.result))
        return {
          actions: [
            this.action('control', this.objects, { position: to, contact: false }),
            this.action('try-out', this.objects, { contact: false }),
          ],
        };
      if (to === undefined) return phrase.sense === 'turn' || phrase.amounts.length > 0 ? this.done('adjust', this.objects) : this.cannot();
      return this.done('control', this.objects, { position: to, contact: false });
    }
    if (first.thing.kind === 'measurement') return this.done('adjust', this.objects);
    if (first.thing.kind === 'cover' && to !== undefined) {
      const position = this.tables.positions.get(to) ?? to;
      if (position === 'open' || position === 'shut') return this.done(position === 'open' ? 'open' : 'close', this.objects);
    }
    if (to !== undefined && ['off', 'out'].includes(to)) return this.cannot();
    // "Turn the hook a quarter turn with the start key": the machine does it.
    const keys = this.tools.filter((use) => use.thing.kind === 'control');
    if (keys.length > 0) return this.done(this.around.testRun ? 'test-run' : 'start', keys, { contact: false });
    if (first.thing.kind === 'part' || first.thing.kind === 'fastener' || first.thing.kind === 'cover')
      return phrase.sense === 'set' && phrase.amounts.length > 0
        ? this.done('adjust', this.objects)
        : this.done('move', this.objects, to === undefined ? {} : { position: to });
    if (first.thing.kind === 'tool') return { actions: [this.action('use', this.objects, { contact: false })] };
    return this.cannot();
  }

  private namedPosition(): string | undefined {
    const place = this.phrase.places.find((one) => ['to', 'in', 'into', 'at'].includes(one.preposition) && one.uses.length === 0);
    const word = /^(?:to|in|into|at)\s+(?:the\s+)?["“]?([\p{L}\p{N}]+(?:-[\p{L}\p{N}]+)*)["”]?(?:\s+(?:position|mode|setting))?\b/iu
      .exec(place?.text ?? '')?.[1]
      ?.toLowerCase();
    return word === undefined || this.tables.sets.determiners.has(word) ? undefined : word;
  }

  private isolate(): Classified {
    const points = [...this.objects, ...this.uses('at', 'with', 'by', 'using')].filter((use) => use.thing.kind === 'point');
    if (points.length === 0) return this.cannot('"isolate" needs the point that does it');
    const actions = points.map((use) =>
      this.equipment.roles(use.thing.name).includes('isolate') ? this.action('isolate', [use], { contact: false }) : undefined,
    );
    return actions.every((one) => one !== undefined) ? { actions } : this.cannot();
  }

  /** "Pick up your tools", "lay the tools aside", "carry the tools away". */
  private putsToolsAway(): boolean {
    const { base, nouns, text } = this.phrase;
    const verbs = ['pick', 'carry', 'set', 'lay', 'bring', 'stow', 'pack', 'clear', 'move'];
    return verbs.includes(base) && nouns.includes('tools') && /\b(?:away|aside|up|out|off)\b/.test(text.toLowerCase());
  }

  /** "See the gauge fall to 0 bar", "see that the flag shows them bearing": the gauge is read. */
  private seen(): Classified {
    const { text } = this.phrase;
    const [gauge] = this.objects;
    if (!gauge || this.objects.some((use) => use.thing.kind !== 'gauge')) return this.cannot();
    return this.done(showsGone(text) ? 'prove' : 'observe', this.objects, { contact: false, result: text });
  }

  private locksNamed(): boolean {
    const { phrase } = this;
    const senses = ['put', 'fit', 'apply', 'remove', 'in', 'keep', 'handle', 'leave', 'unlock'];
    if (!senses.includes(phrase.sense) && !['secure', 'fix'].includes(phrase.base)) return false;
    return this.lockKinds().length > 0;
  }

  private lockKinds(): ('lock' | 'tag')[] {
    const { phrase } = this;
    const out: ('lock' | 'tag')[] = [];
    const all = phrase.base === 'secure' ? phrase.places.flatMap((place) => [...place.nouns]) : phrase.nouns;
    for (const kind of ['lock', 'tag'] as const) {
      const tool = (phrase.base === 'secure' ? this.tools : phrase.objects).some((use) => this.toolKind(use) === kind);
      if (all.includes(kind) || tool) out.push(kind);
    }
    return out;
  }

  private toolKind(use: ThingUse): string | undefined {
    return use.thing.kind === 'tool' ? this.equipment.tool(use.thing.name)?.kind : undefined;
  }

  /** Locks and tags as objects: "put your lock and tag on the isolator", "take the lock off". */
  private locks(): Classified | undefined {
    const { phrase } = this;
    const kinds = this.lockKinds();
    const points = [...phrase.places.flatMap((place) => [...place.uses]), ...phrase.objects].filter(
      (use) => use.thing.kind === 'point' || use.thing.kind === 'control',
    );
    const off = phrase.sense === 'remove' || phrase.sense === 'unlock';
    // "On each:" waits for the points below.
    const hangs = this.around.hangs || /\b(?:each|every|these)\b/.test(phrase.text.toLowerCase());
    const pronoun = phrase.places.some((place) => place.pronoun) || ((phrase.base === 'secure' || !hangs) && phrase.pronoun);
    const many = phrase.many || phrase.places.some((place) => / each\b| both\b| all\b| them\b/.test(place.text));
    // "Turn the switch off. Put on your lock.": what was moved last, if it was a point.
    const last = this.around.it.slice(-1).filter((use) => use.thing.kind === 'point');
    const on =
      points.length > 0
        ? points
        : pronoun && many && this.around.it.length < 2 && this.around.them.length > 1
          ? this.around.them
          : pronoun && this.around.it.length > 0
            ? many
              ? this.around.it
              : this.around.it.slice(-1)
            : this.around.point
              ? [this.around.point]
              : this.around.only
                ? [this.around.only]
                : !pronoun && !off && !hangs
                  ? last
                  : [];
    if (phrase.sense === 'keep' || phrase.sense === 'leave') return { actions: [] };
    // "Your lock on the switch and your tag on the valve": what goes where.
    const lockOrTag = (use: ThingUse): boolean => ['lock', 'tag'].includes(this.toolKind(use) ?? '');
    const apart = phrase.places.some(
      ({ uses, nouns }) =>
        uses.some(({ thing }) => thing.kind === 'point') &&
        (uses.some(lockOrTag) || nouns.some((noun) => noun === 'lock' || noun === 'tag')),
    );
    const point = phrase.objects.findIndex(({ thing }) => thing.kind === 'point');
    const behind = point >= 0 && phrase.objects.slice(point).some(lockOrTag) && phrase.places.some((place) => place.uses.length > 0);
    if ((apart || behind) && phrase.base !== 'secure') return this.cannot();
    // "Take off the locks and tags.": wherever they are.
    if (off && !hangs && on.length === 0 && !pronoun && phrase.unknown.length === 0 && phrase.places.length === 0) {
      const everywhere = this.equipment.lockable().map((thing): ThingUse => ({ thing, at: phrase.at, end: phrase.end }));
      return {
        actions: kinds.map((kind) => this.action(kind === 'lock' ? 'unlock' : 'untag', everywhere, { contact: false, manner: WHEREVER })),
      };
    }
    if (on.length === 0) return this.cannot(NO_POINT);
    if (on.some((use) => use.thing.kind !== 'point' && use.thing.kind !== 'control')) return this.cannot();
    // "beside the isolator", "on the door near the isolator", "open in its eye": it holds nothing.
    const aside = phrase.places.some(({ preposition, uses }) => AWAY.has(preposition) && uses.some(({ thing }) => thing.kind === 'point'));
    if (
      !off &&
      (aside || /\b(?:next|close) to\b/i.test(phrase.text) || /\b(?:un|re)?locks?(?: and tags?)? (?:open|loosely)\b/i.test(phrase.text))
    )
      return this.cannot();
    if (phrase.unknown.length > 0) return this.cannot();
    return { actions: kinds.map((kind) => this.action(off ? (kind === 'lock' ? 'unlock' : 'untag') : kind, on, { contact: false })) };
  }

  private lockObjects(): Classified {
    const { phrase } = this;
    const points = this.objects.filter((use) => use.thing.kind === 'point' || use.thing.kind === 'control');
    // "Lock and tag both": the points that were moved just now.
    const both = phrase.pronoun && phrase.many && phrase.objects.length === 0 && this.around.it.length < 2 ? this.around.them : [];
    if (both.length > 1 && phrase.unknown.length === 0) {
      const every: ActionKind[] = phrase.sense === 'lock-and-tag' ? ['lock', 'tag'] : [phrase.sense as ActionKind];
      return { actions: every.map((kind) => this.action(kind, both, { contact: false })) };
    }
    const on =
      points.length > 0 ? points : this.objects.length === 0 && phrase.unknown.length === 0 && this.around.point ? [this.around.point] : [];
    if (on.length === 0 || on.length < this.objects.length || phrase.unknown.length > 0) return this.cannot();
    // "Lock the valve shut": the position is said, the lock holds it. "Lock it in the on position" holds it live.
    const said = phrase.position ?? /\bin (?:the |its )?["“]?(\w+)["”]?(?: position)?\b/i.exec(phrase.text)?.[1]?.toLowerCase();
    const held =
      said !== undefined && this.tables.positions.has(said) ? on.map((use) => this.equipment.move(use.thing.name, said)?.kind) : [];
    if (held.some((kind) => kind === 'restore' || kind === 'unrelieve' || kind === 'release')) return this.cannot();
    const kinds: ActionKind[] = phrase.sense === 'lock-and-tag' ? ['lock', 'tag'] : [phrase.sense as ActionKind];
    return { actions: kinds.map((kind) => this.action(kind, on, { contact: false })) };
  }

  private bleed(): Classified {
    const points = [...this.objects, ...this.uses('through', 'with', 'at', 'by', 'using', 'via')].filter(
      (use) => use.thing.kind === 'point',
    );
    if (points.length > 0) {
      const relieving = points.filter((use) => this.equipment.roles(use.thing.name).includes('relieve'));
      const use = relieving[0];
      const moved = use && (this.equipment.move(use.thing.name, 'open') ?? this.equipment.move(use.thing.name, 'on'));
      return use && moved?.kind === 'relieve'
        ? { actions: [this.action('relieve', [use], { position: moved.position, contact: false })] }
        : this.cannot();
    }
    const sources = this.objects.filter((use) => use.thing.kind === 'source');
    return sources.length > 0 && sources.length === this.objects.length ? this.done('relieve', sources, { contact: false }) : this.cannot();
  }

  private restrain(): Classified {
    const points = [...this.objects, ...this.tools].filter((use) => use.thing.kind === 'point');
    const holding = points.filter((use) => this.equipment.roles(use.thing.name).includes('restrain'));
    if (holding.length === 0 || this.phrase.unknown.length > 0) {
      const temporary = this.tools.filter((use) => this.equipment.tool(use.thing.name)?.temporary);
      return temporary.length > 0 ? this.done('put-in', temporary) : this.cannot();
    }
    const use = holding[0] as ThingUse;
    const moved = this.equipment.move(use.thing.name, 'in') ?? this.equipment.move(use.thing.name, 'on');
    return moved?.kind === 'restrain'
      ? { actions: [this.action('restrain', holding, { position: moved.position, contact: false })] }
      : this.cannot();
  }

  private prove(): Classified {
    const meter = this.tools.some((use) => use.thing.kind === 'tool' || use.thing.kind === 'gauge');
    const measurement = this.objects.filter((use) => use.thing.kind === 'measurement');
    if (measurement.length > 0) return this.done('measure', measurement, { contact: meter });
    // "Test the multimeter on a known live source": the instrument is tried, not the machine.
    const tried = this.objects.length > 0 && this.objects.every((use) => use.thing.kind === 'tool');
    if (tried && /\b(?:live|known|again)\b/i.test(this.phrase.text)) return this.inUse();
    if (!meter || this.phrase.nouns.includes('live-source')) return this.cannot();
    return { actions: [this.action('prove', this.objects, { contact: true })] };
  }

  private remove(): Classified {
    if (this.phrase.nouns.includes('tools') || this.allTools()) return { actions: [this.action('take-tools', [], { contact: false })] };
    return this.byKind({
      cover: () => this.done('open', this.objects),
      part: () => this.done('open', this.objects),
      replacement: () => this.done('open', this.objects),
      fastener: () => this.done(this.phrase.base === 'remove' ? 'open' : 'loosen', this.objects),
      point: () => this.move(['out', 'unplugged']),
      tool: () => this.temporary('take-out'),
    });
  }

  private allTools(): boolean {
    return (
      this.objects.length > 0 &&
      this.objects.every((use) => use.thing.kind === 'tool' && !this.equipment.tool(use.thing.name)?.temporary) &&
      (this.phrase.sense === 'collect' ||
        (this.phrase.sense === 'remove' && (this.phrase.base !== 'put' || this.phrase.particle === 'away')))
    );
  }

  private fit(): Classified {
    return this.byKind({
      cover: () => this.done('close', this.objects),
      part: () => this.done(this.phrase.renewed ? 'renew' : 'close', this.objects),
      replacement: () => this.done('close', this.objects),
      fastener: () => this.done('close', this.objects),
      point: () => this.move(['in', 'plugged in']),
      tool: () => this.temporary('put-in'),
      consumable: () => this.apply(),
    });
  }

  private put(): Classified {
    const { phrase } = this;
    const [first] = this.objects;
    const whole = phrase.nouns.includes('machine') || this.objects.some((use) => use.thing.kind === 'machine');
    if (whole && phrase.places.some((place) => place.nouns.includes('service') && place.preposition === 'out'))
      return { actions: [this.action('out-of-service', [], { contact: false })] };
    // "Put the key in your pocket."
    if (!first && phrase.unknown.every(({ text }) => /^keys?$/i.test(text)) && /\bin your pocket\b/i.test(phrase.text))
      return { actions: [] };
    if (!first || phrase.unknown.length > 0) return this.cannot();
    if (this.putDown()) return this.physical('handle');
    switch (first.thing.kind) {
      case 'point':
      case 'control':
        if (phrase.particle === 'in' || phrase.particle === 'out')
          return first.thing.kind === 'point' ? this.move([phrase.particle]) : this.cannot();
        return this.set();
      case 'cover':
        return this.done('close', this.objects);
      case 'part':
      case 'fastener':
      case 'replacement':
        return this.done('close', this.objects);
      case 'consumable':
        return this.apply();
      case 'tool': {
        if (this.objects.every((use) => this.equipment.tool(use.thing.name)?.protective))
          return this.done('protect', this.objects, { contact: false });
        return this.temporary('put-in');
      }
      default:
        return this.cannot();
    }
  }

  private makers(uses: readonly ThingUse[]): readonly ThingUse[] {
    return uses.filter((use) => use.thing.kind === 'tool' && this.equipment.tool(use.thing.name)?.makes !== undefined);
  }

  /** Jacking up, charging, pumping: a load or pressure that was not there before. Read only where it is said by what, or of what source. */
  private makeEnergy(objects: readonly ThingUse[]): Classified {
    const makers = [...this.makers(objects), ...this.makers(this.tools)];
    const sources = objects.filter((use) => use.thing.kind === 'source');
    if ((makers.length === 0 && sources.length === 0) || !['', 'up'].includes(this.phrase.particle) || this.phrase.unknown.length > 0)
      return this.cannot();
    return { actions: [this.action('make-energy', objects, { contact: false })] };
  }

  /** "Put the guard on the bench", "put the old blade into the box": the thing is off the machine, not back on it. */
  private putDown(): boolean {
    const { phrase } = this;
    const { restingPlaces, discarded } = this.tables.lexicon;
    if (!this.objects.every((use) => ['part', 'cover', 'fastener', 'replacement'].includes(use.thing.kind))) return false;
    const wordsOf = (text: string): readonly string[] => text.toLowerCase().split(/[^a-z-]+/);
    if (phrase.places.some((place) => wordsOf(place.text).some((word) => restingPlaces.includes(word)))) return true;
    const [first] = this.objects;
    const before = first === undefined ? [] : wordsOf(phrase.text.slice(0, Math.max(0, first.end - phrase.at)));
    return before.some((word) => discarded.includes(word));
  }

  private renew(): Classified {
    return this.byKind({
      part: () => this.done('renew', this.objects),
      fastener: () => this.done('renew', this.objects),
      replacement: () => this.done('close', this.objects),
      cover: () => this.done('renew', this.objects),
    });
  }

  private apply(): Classified {
    const onto = this.uses('to', 'on', 'onto', 'into', 'in', 'over', 'along', 'between', 'through', 'around').filter((use) =>
      ['part', 'cover', 'fastener', 'zone'].includes(use.thing.kind),
    );
    const consumables = this.objects.filter((use) => use.thing.kind === 'consumable');
    const parts = this.objects.filter((use) => ['part', 'cover', 'fastener', 'replacement', 'zone'].includes(use.thing.kind));
    if (consumables.length + parts.length !== this.objects.length) return this.cannot();
    const onIt = this.phrase.places.some((place) => place.pronoun);
    const itself = onIt ? this.around.it.filter((use) => ['part', 'cover', 'fastener'].includes(use.thing.kind)) : [];
    if (consumables.length > 0 && onIt && itself.length === 0) return this.cannot('it is not clear what "it" stands for');
    if (consumables.length > 0 && itself.length > 0) return { actions: [this.action('apply', itself, { with: consumables })] };
    // Points and controls are oiled too.
    const other =
      onto.length > 0 ? [] : this.uses('to', 'on', 'onto').filter((use) => ['point', 'control', 'gauge'].includes(use.thing.kind));
    if (consumables.length > 0 && other.length > 0) return { actions: [this.action('apply', other, { with: consumables })] };
    if (consumables.length > 0)
      return { actions: [this.action('apply', onto.length > 0 ? onto : consumables, { with: onto.length > 0 ? consumables : [] })] };
    if (parts.length === 0 || (this.phrase.unknown.length > 0 && this.tools.length === 0)) return this.cannot();
    return this.done('apply', parts);
  }

  private clear(): Classified {
    const { phrase } = this;
    if (phrase.nouns.includes('people')) return { actions: [this.action('clear-people', [], { contact: false })] };
    if (phrase.nouns.includes('tools')) return { actions: [this.action('take-tools', [], { contact: false })] };
    return this.cannot('"clear" may be people, tools or a blockage');
  }

  private measure(): Classified {
    const measured = this.objects.filter((use) => use.thing.kind === 'measurement');
    if (measured.length > 0)
      return this.done('measure', measured, { contact: this.tools.some((use) => this.equipment.tool(use.thing.name)?.contact) });
    const gauges = this.objects.filter((use) => use.thing.kind === 'gauge');
    if (gauges.length > 0 && gauges.length === this.objects.length) return this.done('observe', gauges, { contact: false });
    const where = this.uses('between', 'from', 'at', 'on', 'across', 'in', 'along').filter((use) =>
      ['part', 'fastener', 'cover', 'source', 'zone'].includes(use.thing.kind),
    );
    if (this.tools.length > 0 && this.objects.length === 0 && where.length > 0) return this.done('measure', where, { contact: true });
    // "Test the meter on a live source, measure the mains": with what was taken up just now.
    const taken = this.around.it.slice(-1).filter(({ thing }) => thing.kind === 'tool' && this.equipment.tool(thing.name)?.contact);
    const sources = this.objects.length > 0 && this.objects.every(({ thing }) => thing.kind === 'source');
    if (this.tools.length === 0 && sources && taken.length > 0) return this.done('measure', this.objects, { contact: true, with: taken });
    if (this.tools.length === 0 || this.objects.length === 0) return this.cannot();
    return this.done('measure', this.objects, { contact: true });
  }

  private read(): Classified {
    const measured = this.objects.filter((use) => use.thing.kind === 'measurement');
    if (measured.length > 0) return this.measure();
    const gauges = this.objects.filter((use) => use.thing.kind === 'gauge');
    if (gauges.length > 0 && gauges.length === this.objects.length)
      return this.done(this.around.result !== undefined ? 'prove' : 'observe', gauges, { contact: false });
    const tools = this.objects.filter((use) => use.thing.kind === 'tool');
    if (tools.length > 0 && tools.length === this.objects.length) return this.done('observe', tools, { contact: false });
    return this.objects.length === 0 ? { actions: [this.action('observe', [], { contact: false })] } : this.cannot();
  }

  private sense(contact: boolean): Classified {
    const things = [...this.objects, ...this.uses('at', 'for', 'on', 'in', 'along', 'over', 'into', 'under', 'through')].filter(
      (use) => use.thing.kind !== 'tool' && use.thing.kind !== 'consumable',
    );
    const gauges = things.filter((use) => use.thing.kind === 'gauge');
    if (gauges.length > 0 && gauges.length === things.length && !contact)
      return this.done(this.around.result === undefined ? 'observe' : 'prove', gauges, { contact: false });
    // "Reach in and feel": a hand somewhere.
    if (things.length === 0)
      return this.phrase.unknown.length > 0 || contact ? this.cannot() : { actions: [this.action('sense', [], { contact })] };
    return { actions: [this.action('sense', things, { contact })] };
  }

  private named(kind: ActionKind, contact: boolean): Classified {
    return { actions: [this.action(kind, [...this.objects, ...this.uses('at', 'on')], { contact })] };
  }

  private check(): Classified {
    const measured = this.objects.filter((use) => use.thing.kind === 'measurement');
    if (measured.length > 0 && measured.length === this.objects.length) return this.measure();
    const gauges = this.objects.filter((use) => use.thing.kind === 'gauge');
    if (gauges.length > 0 && gauges.length === this.objects.length) return this.read();
    if (this.objects.length === 0 || this.phrase.unknown.length > 0) return this.cannot();
    return {
      actions: [
        this.action('sense', this.objects, {
          contact: this.around.manner === 'by hand' || this.phrase.places.some(({ nouns }) => nouns.includes('work')),
        }),
      ],
    };
  }

  private keep(): Classified {
    const { phrase } = this;
    if (this.goesOnDoing()) return this.cannot();
    if (phrase.nouns.includes('people')) return { actions: [this.action('clear-people', [], { contact: false })] };
    if (/\b(?:clear|away|back|out)\b/.test(phrase.text)) return { actions: [this.action('stand-clear', [], { contact: false })] };
    const plug = this.objects.find((use) => use.thing.kind === 'point' && this.equipment.isPlug(use.thing.name));
    if (plug) return { actions: [this.action('lock', [plug], { contact: false })] };
    const gauges = this.objects.filter((use) => use.thing.kind === 'gauge');
    if (gauges.length > 0 && /\b(?:view|sight)\b/.test(phrase.text))
      return this.done('observe', gauges, { contact: false, manner: 'in view' });
    return { actions: [] };
  }

  /** "Keep wiping the scraper": the second verb says what is done. */
  private goesOnDoing(): boolean {
    const second = /^\w+ (?:on )?(\w+)/.exec(this.phrase.text.toLowerCase())?.[1] ?? '';
    return this.tables.verbs.get(second)?.some(({ form }) => form === 'gerund') ?? false;
  }

  /** "Switch on at the isolator". */
  private atPoint(): Classified | undefined {
    if (this.objects.length > 0 || this.phrase.nouns.length > 0) return undefined;
    const points = this.uses('at', 'with', 'on').filter((use) => use.thing.kind === 'point');
    if (points.length === 0) return undefined;
    return new Maker({ ...this.phrase, objects: points, places: [] }, this.around, this.equipment, this.tables).make();
  }

  private handle(): Classified {
    const { phrase } = this;
    if (this.objects.length > 0 && this.objects.every((use) => use.thing.kind === 'control'))
      return phrase.base === 'hold' ? this.press() : this.cannot();
    const temporary = this.tools.filter((use) => this.equipment.tool(use.thing.name)?.temporary);
    if (temporary.length > 0 && phrase.unknown.length === 0) return this.done('put-in', temporary);
    if (
      phrase.particle === 'in' &&
      this.objects.length > 0 &&
      this.objects.every((use) => use.thing.kind === 'part' || use.thing.kind === 'replacement')
    )
      return this.done(phrase.renewed ? 'renew' : 'close', this.objects);
    return this.physical('handle');
  }

  private uses(...prepositions: readonly string[]): readonly ThingUse[] {
    return this.phrase.places.filter((place) => prepositions.includes(place.preposition)).flatMap((place) => [...place.uses]);
  }
}

/** "must not show green", "may show red": what it does not have to show. "Nothing may show" and "no red may show" say that it is gone. */
const SHOWS_ELSE = /\b(?:(?:must|may|should|shall|need) not|may|might|can) (?:still )?(?:show|read|indicate|stand)\b/i;
const SHOWS_NONE = /(?:^|[:;,]\s*)(?:no|none|nothing|neither)\b/i;

/** A gauge that stands at nothing, or a mark that shows what it is there to show: no figure but nought. */
export function showsGone(text: string): boolean {
  if (SHOWS_ELSE.test(text) && !SHOWS_NONE.test(text.trim())) return false;
  if (/(?:^|\s)0(?![.\d])|\bzero\b/i.test(text)) return true;
  return !/\d/.test(text);
}

/** "less than 50 V", "40 °C or less": a figure that what is left stays below. */
export const showsLittle = (text: string): boolean =>
  /\b(?:below|under|less than|cooler than|no(?:t)? (?:more|higher|hotter|warmer) than|not (?:over|above)|at most|or (?:less|lower|below|under)|down to|cooled to)\b/i.test(
    text,
  );

/** "Wait at most 5 min": how long it is at least is not said. */
export const atMost = (text: string): boolean =>
  /\b(?:at (?:the )?most|up to|less than|no(?:t)? (?:more|longer) than|not over|(?:under|within|maximum) \d|(?:half|(?:a )?(?:part|fraction)|some) of)/i.test(
    text,
  );

/** Whether an amount is a time. */
export function timeOf(phrase: Phrase): boolean {
  return phrase.amounts.some((amount) => isTime(amount.unit));
}
