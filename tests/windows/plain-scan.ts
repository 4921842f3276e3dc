/** The window of a charger found the plain way: every 50 mV, from every start, nothing left out and nothing shared between set points. */
import type { Condition, Solved, StateId, Window, WindowOutcome } from '../../packages/engine/src/index.ts';
import type { Operation } from '../../packages/engine/src/index.ts';
import type { CircuitPart } from '../../packages/engine/src/operate/circuit.ts';
import { Frame } from '../../packages/engine/src/operate/frame.ts';
import { insidesOf } from '../../packages/engine/src/operate/insides.ts';
import { runScene, type Run } from '../../packages/engine/src/operate/run.ts';

const STEP = 0.05;

type Span = Window['spans'][number];
type Memory = readonly number[];

/** The charger's on and off, tried from everything that the states before leave. */
class Scan {
  readonly #op: Operation;
  readonly #window: Window;
  readonly #device: CircuitPart;
  readonly #charging: readonly number[];
  readonly #condition: Condition;
  readonly #starts: readonly Memory[];
  readonly #temperatures: Float64Array;

  constructor(op: Operation, window: Window) {
    this.#op = op;
    this.#window = window;
    const device = insidesOf(op).machine.circuit.byId.get(window.part);
    if (device === undefined) throw new Error(`no part ${window.part}`);
    this.#device = device;
    this.#charging = device.placed.ability.converts?.charging ?? [];
    this.#condition = op.condition(window.state, 'weak', window.hands);
    const entries = entriesOf(op, window.state, window.hands);
    this.#starts = entries.flatMap((m) => [m, this.#with(m, 0), this.#with(m, this.#charging[0] ?? 0)]);
    const [first] = entries;
    if (first === undefined) throw new Error(`nothing leads to ${window.state}`);
    const warm = runScene(
      insidesOf(op).machine,
      this.#frame(window.envelope[1] + 1),
      this.#with(first, this.#charging[0] ?? 0),
    )[0];
    if (warm === undefined) throw new Error('a scene has an outcome');
    this.#temperatures = warm.temperatures;
  }

  #with(memory: Memory, value: number): Memory {
    return memory.map((v, i) => (i === this.#device.device ? value : v));
  }

  #frame(volts: number): Frame {
    const insides = insidesOf(this.#op);
    const scene = insides.sceneOf({ ...this.#condition, setPoint: volts });
    return new Frame(insides.machine, { ...scene, leastSetPoint: null, vehicleRest: volts });
  }

  outcome(volts: number): WindowOutcome {
    const frame = this.#frame(volts);
    const { machine } = insidesOf(this.#op);
    const found = new Set(
      this.#starts.flatMap((m) => runScene(machine, frame, m, this.#temperatures).map((r) => this.#of(r))),
    );
    const [only] = found;
    if (found.size === 1 && only !== undefined) return only;
    return found.has('cycle') ? 'cycle' : 'depends';
  }

  #of(run: Run): WindowOutcome {
    const on = run.outcome.segments.map((s) => this.#charging.includes(s.memory[this.#device.device] ?? 0));
    const repeats = run.outcome.type === 'cycle' || run.outcome.type === 'irregular';
    if (repeats && on.includes(true) && on.includes(false)) return 'cycle';
    return on.at(-1) === true ? 'on' : 'off';
  }

  /** From where the window begins to where it ends. */
  spans(): readonly Span[] {
    const low = this.#window.spans[0]?.from ?? 0;
    const high = this.#window.spans.at(-1)?.to ?? 0;
    const count = Math.round((high - low) / STEP);
    const spans: Span[] = [];
    let from = low;
    let before = this.outcome(low);
    for (let i = 1; i <= count; i++) {
      const volts = i === count ? high : low + i * STEP;
      const now = this.outcome(volts);
      if (now === before) continue;
      const edge = this.#edge(low + (i - 1) * STEP, volts, before);
      spans.push({ from, to: edge, outcome: before });
      from = edge;
      before = now;
    }
    return [...spans, { from, to: high, outcome: before }];
  }

  #edge(low: number, high: number, outcome: WindowOutcome): number {
    let [a, b] = [low, high];
    while (b - a > 0.001) {
      const middle = (a + b) / 2;
      if (this.outcome(middle) === outcome) a = middle;
      else b = middle;
    }
    return b;
  }
}

const runOf = (s: Solved): Run => (s as Solved & { readonly run: Run }).run;

/** Memories with which a state is entered under the weak corner. */
function entriesOf(op: Operation, state: StateId, hands: Condition['hands']): readonly Memory[] {
  const facts = op.stateFacts(state);
  const all = op.states
    .filter((s) => facts?.comesFrom.includes(s.id) === true)
    .flatMap((s) => op.solve(op.condition(s.id, 'weak', hands)))
    .flatMap((s) => runOf(s).outcome.memories);
  return [...new Map(all.map((m) => [m.join(), m])).values()];
}

export const plainScan = (op: Operation, window: Window): readonly Span[] => new Scan(op, window).spans();
