/**
 * The WebAssembly module that runs the hot loops, and the memory that its circuits stand in.
 *
 * One memory of a fixed size for all circuits: it never grows (where one has, every typed array of the thread is slower), and
 * nobody has to give a place back. When the end is reached all places are taken back at once; a circuit that solves again after
 * that gets a new one.
 */
import { MODULE, MODULE_BYTES, PAGES } from './module.ts';
import type { Loops } from './loops.ts';
import { Store, type Layout, type Lease } from './store.ts';

/** Part of the memory that one circuit may take: others shall find room beside it. */
const LARGEST_SHARE = 1 / 4;

/** What of the platform's WebAssembly is used: the engine is compiled without any platform's types. */
interface Platform {
  readonly Memory: new (size: { initial: number; maximum: number }) => { readonly buffer: ArrayBuffer };
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: unknown };
}

/** The functions of the module: an address, and the number of unknown currents. */
interface Exports {
  readonly reduce: (at: number) => void;
  readonly carry: (at: number) => void;
  readonly ports: (at: number, size: number) => number;
  readonly step: (at: number, size: number) => number;
  readonly lack: (at: number) => void;
  readonly open: (at: number, size: number) => void;
  readonly fix: (at: number, size: number) => number;
}

class CompiledLoops implements Loops {
  private readonly module: Exports;

  constructor(module: Exports) {
    this.module = module;
  }

  reduce(store: Store): void {
    this.module.reduce(store.at);
  }

  carry(store: Store): void {
    this.module.carry(store.at);
  }

  ports(store: Store, size: number): number {
    return this.module.ports(store.at, size);
  }

  step(store: Store, size: number): number {
    return this.module.step(store.at, size);
  }

  lack(store: Store): void {
    this.module.lack(store.at);
  }

  open(store: Store, size: number): void {
    this.module.open(store.at, size);
  }

  fix(store: Store, size: number): number {
    return this.module.fix(store.at, size);
  }
}

class CompiledMachine {
  readonly loops: Loops;
  private readonly memory: ArrayBuffer;
  private used = 0;
  private lease: Lease = { live: true };

  constructor(loops: Loops, memory: ArrayBuffer) {
    this.loops = loops;
    this.memory = memory;
  }

  /** True where the circuit is small enough. */
  holds(layout: Layout): boolean {
    return layout.bytes <= LARGEST_SHARE * this.memory.byteLength;
  }

  place(layout: Layout): Store {
    if (this.used + layout.bytes > this.memory.byteLength) {
      this.lease.live = false;
      this.lease = { live: true };
      this.used = 0;
    }
    const at = this.used;
    this.used += layout.bytes;
    layout.write(this.memory, at);
    return new Store(layout, this.memory, at, this.lease);
  }
}

const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

function bytesOf(base64: string, count: number): Uint8Array {
  const worth = new Uint8Array(128);
  for (let i = 0; i < ALPHABET.length; i += 1) worth[ALPHABET.charCodeAt(i)] = i;
  const bytes = new Uint8Array(count);
  let bits = 0;
  let word = 0;
  let at = 0;
  for (let i = 0; at < count; i += 1) {
    word = ((word << 6) | worth[base64.charCodeAt(i)]!) & 0xffff;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes[at] = (word >> bits) & 0xff;
    at += 1;
  }
  return bytes;
}

/** The module with its memory; null where there is no WebAssembly, or where it may not be compiled or get its memory. */
export function compiledMachine(): CompiledMachine | null {
  const { WebAssembly: platform } = globalThis as { readonly WebAssembly?: Platform };
  if (platform === undefined) return null;
  try {
    const memory = new platform.Memory({ initial: PAGES, maximum: PAGES });
    const module = new platform.Module(bytesOf(MODULE, MODULE_BYTES));
    const { exports } = new platform.Instance(module, { env: { memory } });
    return new CompiledMachine(new CompiledLoops(exports as Exports), memory.buffer);
  } catch {
    // A content policy, or a machine that grants no memory.
    return null;
  }
}
