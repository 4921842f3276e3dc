/** A document opened for work: judged, explained, changed. */
import type { Company, Pushed, Waiting } from '../checks/company.ts';
import { asideOf, type InSteps, type Wanted } from '../checks/judge.ts';
import { checks } from '../checks/registry.ts';
import type { Basis, Build, Change, Fact, Finding, Id, Operation, Registry } from '../contracts/index.ts';
import { editText, readDocument, type Diagnostic, type DocumentSource } from '../document/index.ts';
import { subjectOf, type DrawingSubject } from '../drawing/index.ts';
import { rankFacts } from '../facts/index.ts';
import { makeRegistry } from '../kinds/registry.ts';
import { atOnce, makeLive, type Live, type Steps } from '../operate/index.ts';
import { offerRemedies, type JudgedRemedy } from '../remedies/index.ts';
import { firstLine, inOrder, stateTable, tallyOf, type StateTable, type Tally } from '../report/index.ts';
import { sizeAuto, type AutoSize } from '../sizing/auto.ts';
import { besideOf, type Beside } from './beside.ts';
import { choicesOf } from './choices.ts';
import { changedBetween, concerns, mayTurn, sameMeaning } from './changed.ts';
import { scheduleOf, type ScheduleRow } from './schedule.ts';
import { slipOf, type Slip } from './slips.ts';
import {
  judgeBuild,
  judgeBuildInSteps,
  operationOf,
  type JudgedBuild,
  type JudgeOptions,
} from './judging.ts';

export interface Judged {
  /** In order: danger, fault, open, advice, met. */
  readonly findings: readonly Finding[];
  readonly tally: Tally;
  readonly firstLine: string;
  /** 0: no danger, no fault, nothing open in a danger family; 1 otherwise. */
  readonly exitCode: 0 | 1;
  /** Ids of the conditions that were solved. */
  readonly conditions: readonly string[];
  /** With all values nominal. */
  readonly operation: Operation;
  readonly auto: AutoSize | null;
  readonly assumed: readonly Basis[];
}

export interface Session {
  readonly diagnostics: readonly Diagnostic[];
  /** null when the document has errors. */
  readonly build: Build | null;
  readonly source: DocumentSource;
  judge(): Judged;
  /**
   * As `judge`, in steps between which the work can be laid aside, or left for good. Each finding is yielded once it is judged, what an
   * edit is about first, then what may well turn by it (only where one practice judges and no size is searched for); none but the last
   * word says that there is no other.
   */
  judging(): Generator<Finding | undefined, Judged, undefined>;
  /**
   * The same with company, who judge under slack and stiff values meanwhile. It yields `WAITING` where nothing is left to do before
   * they say more; who drives it then sleeps. Where they fail or are gone all is judged here; what comes of it is always the same.
   * A build without a practice, or with sizes to be found, is judged without them.
   */
  judging(company: Company | null): Generator<Finding | Waiting | undefined, Judged, undefined>;
  /** It names a practice and asks for no size: only such a build is judged with company. */
  readonly takesCompany: boolean;
  /** Its judging under slack or stiff values alone, as a companion does it; null: it takes no company. */
  beside(push: Pushed): Beside | null;
  /** Whether a finding may speak of what differs from the session that came before; true where none is known. */
  concerned(findingId: string): boolean;
  facts(): readonly Fact[];
  /** As `facts`, in steps. */
  ranking(): Generator<unknown, readonly Fact[], undefined>;
  remedies(findingId: string): readonly JudgedRemedy[];
  states(all?: boolean): StateTable;
  /**
   * The build under nominal values, ready to be asked: with its automatic size once that has been found (by `judge` or `live`),
   * else as it is written.
   */
  operation(): Operation;
  /** What a drawing of it shows, as `operation` has it. */
  subject(): DrawingSubject;
  /** What can be said of one part, wire or place; null: nothing has that name. */
  slip(id: Id): Slip | null;
  /** One row for each wire; judges first. */
  schedule(): readonly ScheduleRow[];
  /** The build to be tried out, with its automatic size. */
  live(): Live;
  /** A session on the changed document (without a build, and saying why, where the change is refused); this one stays as it is. */
  edit(changes: readonly Change[]): Session;
}

export interface SessionOptions {
  readonly file?: string;
  readonly steps?: Steps;
  /** A session on an earlier state of the document: what did not change is taken over. All answers are the same without. */
  readonly after?: Session;
}

/** Opens a build document. Nothing is judged until it is asked for. */
export function openSession(input: string | Uint8Array, options: SessionOptions = {}): Session {
  return new DocumentSession(input, options);
}

class DocumentSession implements Session {
  readonly diagnostics: readonly Diagnostic[];
  readonly build: Build | null;
  readonly source: DocumentSource;
  readonly #registry: Registry;
  readonly #options: Omit<SessionOptions, 'after'>;
  readonly #concerned: ((findingId: string) => boolean) | null;
  readonly #mayTurn: (findingId: string) => boolean;
  /** Findings of the last session before this one that was judged. */
  readonly #before: readonly Finding[];
  #judged: Judged | null = null;
  /** The findings are those of an earlier session, from which this one differs in words only. */
  #takenOver = false;
  #sized: Sized | null = null;
  /** Judging under way, of a build that asks for no automatic size, and its company. */
  #under: InSteps<JudgedBuild> | null = null;
  #company: Company | null = null;
  #plain: Operation | null = null;
  #drawn: { readonly operation: Operation; readonly subject: DrawingSubject } | null = null;
  #tried: { readonly operation: Operation; readonly live: Live } | null = null;

  /** `refused`: why a change could not be written; such a session has no build. */
  constructor(
    input: string | Uint8Array,
    { after, ...options }: SessionOptions & { readonly before?: DocumentSource },
    refused?: readonly Diagnostic[],
  ) {
    this.#options = { ...(options.file === undefined ? {} : { file: options.file }), ...stepsOf(options) };
    this.#registry = after instanceof DocumentSession ? after.#registry : makeRegistry();
    const before = options.before ?? after?.source;
    const read = readDocument(input, this.#registry, {
      ...this.#options,
      ...(before === undefined ? {} : { before }),
    });
    this.diagnostics = refused ?? read.diagnostics;
    this.build = refused === undefined ? read.build : null;
    this.source = read.source;
    const earlier = after instanceof DocumentSession ? after : null;
    this.#before = earlier === null ? [] : (earlier.#judged?.findings ?? earlier.#before);
    this.#mayTurn = mayTurn(this.#before);
    this.#concerned = earlier === null ? null : this.#concernedAfter(earlier);
    if (earlier !== null) this.#takeOver(earlier);
  }

  concerned(findingId: string): boolean {
    return this.#concerned?.(findingId) ?? true;
  }

  #wanted(findingId: string): Wanted {
    if (this.concerned(findingId)) return 'first';
    return this.#mayTurn(findingId) ? 'soon' : 'later';
  }

  #concernedAfter(earlier: DocumentSession): ((findingId: string) => boolean) | null {
    if (earlier.build === null || this.build === null) return earlier.#concerned;
    return concerns(changedBetween(earlier.build, this.build), this.#before);
  }

  /** Where nothing differs that is computed with, nothing is computed again. */
  #takeOver(earlier: DocumentSession): void {
    const [sized, judged] = [earlier.#sized, earlier.#judged];
    if (sized === null || sized.auto !== null || judged === null) return;
    if (earlier.build === null || this.build === null) return;
    if (!sameMeaning(earlier.build, this.build)) return;
    const { build } = this;
    const findings = sized.judged.findings.map((finding) => ({
      ...finding,
      aside: asideOf(build, finding.id),
    }));
    this.#sized = { ...sized, judged: { ...sized.judged, findings } };
    this.#takenOver = true;
  }

  judge(): Judged {
    this.#judged ??= this.#judge();
    return this.#judged;
  }

  judging(): Generator<Finding | undefined, Judged, undefined>;
  judging(company: Company | null): InSteps<Judged>;
  *judging(company: Company | null = null): InSteps<Judged> {
    const build = this.#read();
    // A size is searched for in one go.
    while (this.#sized === null && !hasAuto(build)) {
      this.#company = company;
      const under = this.#takeUnder() ?? this.#begin(build, company);
      const step = under.next();
      if (step.done === true) {
        this.#sized = { build, auto: null, judged: step.value };
        break;
      }
      this.#under = under;
      yield step.value;
    }
    return this.judge();
  }

  /** With company nothing comes first where all is new: they would have to wait for it. */
  #begin(build: Build, company: Company | null): InSteps<JudgedBuild> {
    return judgeBuildInSteps(build, this.#registry, {
      ...this.#steps(),
      ahead: company !== null && this.#concerned === null ? null : (id) => this.#wanted(id),
      company: () => this.#company,
    });
  }

  get takesCompany(): boolean {
    return this.build?.practice !== undefined && !hasAuto(this.build);
  }

  beside(push: Pushed): Beside | null {
    return this.takesCompany ? besideOf(this.#read(), this.#registry, push, this.#steps()) : null;
  }

  /** The build with its automatic size put in, and how it was judged. */
  #size(): Sized {
    // What was begun in steps is brought to its end, alone: in one go nobody else is heard.
    const under = this.#takeUnder();
    this.#company = null;
    this.#sized ??=
      under === null ? this.#sizeOnce() : { build: this.#read(), auto: null, judged: atOnce(under) };
    return this.#sized;
  }

  /** Taken while it runs: what throws is begun anew, not gone on with. */
  #takeUnder(): InSteps<JudgedBuild> | null {
    const under = this.#under;
    this.#under = null;
    return under;
  }

  #sizeOnce(): Sized {
    const build = this.#read();
    const judge = (copy: Build): JudgedBuild => judgeBuild(copy, this.#registry, this.#steps());
    const kept = new Map<Build, JudgedBuild>();
    const auto = sizeAuto(build, (copy) => {
      const judged = judge(copy);
      kept.set(copy, judged);
      return judged.findings;
    });
    const sized = auto?.build ?? build;
    return { build: sized, auto, judged: kept.get(sized) ?? judge(sized) };
  }

  #steps(): { readonly steps?: Steps } {
    return stepsOf(this.#options);
  }

  #read(): Build {
    if (this.build === null) throw new Error('a document with errors cannot be judged');
    return this.build;
  }

  #judge(): Judged {
    const { judged, auto } = this.#size();
    const findings = inOrder(judged.findings);
    const tally = tallyOf(findings);
    return {
      findings,
      tally,
      firstLine: firstLine(tally),
      exitCode: passes(findings) ? 0 : 1,
      conditions: judged.operation.judged.map((c) => judged.operation.conditionId(c)),
      operation: judged.operation,
      auto,
      assumed: judged.operation.assumed(),
    };
  }

  facts(): readonly Fact[] {
    return atOnce(this.ranking());
  }

  *ranking(): InSteps<readonly Fact[]> {
    const { findings } = yield* this.judging();
    const { build } = this.#size();
    const judged = (copy: Build, options: JudgeOptions) => this.#findings(copy, options);
    return yield* rankFacts(
      findings,
      (pinned, only) => judged(build, { pinned, only }),
      choicesOf(build, (copy) => judged(copy, {})),
    );
  }

  *#findings(build: Build, options: JudgeOptions): InSteps<readonly Finding[]> {
    const judged = yield* judgeBuildInSteps(build, this.#registry, { ...this.#steps(), ...options });
    return judged.findings;
  }

  remedies(findingId: string): readonly JudgedRemedy[] {
    const { judged } = this.#size();
    const { findings } = this.judge();
    const finding = findings.find((f) => f.id === findingId);
    const check = checks.find((c) => c.id === finding?.check);
    if (finding === undefined || check === undefined) return [];
    return offerRemedies(check, finding, findings, judged.operation, judged.practice, {
      judge: (changes) => {
        const copy = this.edit(changes);
        return copy.build === null ? null : { findings: copy.judge().findings };
      },
    });
  }

  states(all = false): StateTable {
    return stateTable(this.judge().operation, all);
  }

  operation(): Operation {
    if (this.#sized !== null && !this.#takenOver) return this.#sized.judged.operation;
    this.#plain ??= operationOf(this.#read(), this.#registry, this.#steps());
    return this.#plain;
  }

  subject(): DrawingSubject {
    const operation = this.operation();
    if (this.#drawn?.operation !== operation) this.#drawn = { operation, subject: subjectOf(operation) };
    return this.#drawn.subject;
  }

  slip(id: Id): Slip | null {
    return slipOf(
      {
        build: this.#read(),
        operation: this.operation(),
        registry: this.#registry,
        source: this.source,
        subject: this.subject(),
      },
      id,
    );
  }

  schedule(): readonly ScheduleRow[] {
    const { findings, operation, auto } = this.judge();
    return scheduleOf({ operation, subject: this.subject(), findings, auto });
  }

  live(): Live {
    if (this.#sized === null && hasAuto(this.#read())) this.#size();
    const operation = this.operation();
    if (this.#tried?.operation !== operation) this.#tried = { operation, live: makeLive(operation) };
    return this.#tried.live;
  }

  edit(changes: readonly Change[]): Session {
    const edited = editText(this.source, changes);
    return edited.ok
      ? new DocumentSession(edited.text, { ...this.#options, after: this, before: edited.source })
      : new DocumentSession(
          this.source.text,
          { ...this.#options, after: this, before: this.source },
          edited.diagnostics,
        );
  }
}

const stepsOf = ({ steps }: Pick<SessionOptions, 'steps'>): { readonly steps?: Steps } =>
  steps === undefined ? {} : { steps };

interface Sized {
  readonly build: Build;
  readonly judged: JudgedBuild;
  readonly auto: AutoSize | null;
}

const hasAuto = (build: Build): boolean => [...build.wires.values()].some((wire) => wire.size === 'auto');

/** No danger, no fault, and nothing open in a danger family. */
function passes(findings: readonly Finding[]): boolean {
  return findings.every(
    (f) => f.verdict !== 'danger' && f.verdict !== 'fault' && !(f.verdict === 'open' && f.dangerFamily),
  );
}
