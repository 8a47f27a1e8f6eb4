import { type AuditHead, type AuditLine, emptyHead, lineHash } from "./line.ts";

/** How a chain fails to hold. */
export type ChainFault =
  | "missing"
  | "displaced"
  | "altered"
  | "cutOff"
  | "beyondHead"
  | "notTheHead"
  | "misfiled";

export type Verification =
  | {
      ok: true;
      lines: number;
      head: AuditHead;
      /** Lines at the beginning that were written before there was a key: chained, but not sealed by it. */
      unsealed: number;
    }
  | {
      ok: false;
      /** Lines before this one hold. */
      seq: number;
      fault: ChainFault;
      sentence: string;
    };

const sentences: Record<ChainFault, (seq: number) => string> = {
  missing: (seq) => `Line ${seq} was removed.`,
  displaced: (seq) =>
    `Line ${seq} does not follow the line before it: lines were reordered, inserted or rewritten.`,
  altered: (seq) => `Line ${seq} was altered.`,
  cutOff: (seq) => `The trail was cut off: line ${seq} and those after it are gone.`,
  beyondHead: (seq) => `Line ${seq} was put after the trail's end.`,
  notTheHead: (seq) => `Line ${seq} is not the one that was written down as the trail's end.`,
  misfiled: (seq) => `Line ${seq} is not filed under the people it is about.`,
};

/** A chain that does not hold, and where. */
export class ChainBroken extends Error {
  readonly fault: ChainFault;
  readonly seq: number;
  constructor(fault: ChainFault, seq: number) {
    super(sentences[fault](seq));
    this.fault = fault;
    this.seq = seq;
  }
}

export interface ChainKeys {
  key?: Uint8Array;
  /** A head that was written down earlier. */
  writtenDown?: AuditHead;
}

/**
 * Walks a chain line by line and holds none of them. Lines come in the order of their seq.
 * A line that the key does not seal is taken only before the first that it does.
 */
export class ChainWalk {
  private readonly given: ChainKeys;
  private last: AuditHead = emptyHead;
  private sealed = false;
  unsealed = 0;

  constructor(given: ChainKeys) {
    this.given = given;
  }

  get end(): AuditHead {
    return this.last;
  }

  /** @throws {ChainBroken} */
  step(line: AuditLine): void {
    const seq = this.last.seq + 1;
    if (line.seq !== seq) throw new ChainBroken("missing", seq);
    if (line.prev !== this.last.hash) throw new ChainBroken("displaced", seq);
    if (!this.isGenuine(line)) throw new ChainBroken("altered", seq);
    const { writtenDown } = this.given;
    if (writtenDown?.seq === seq && writtenDown.hash !== line.hash) throw new ChainBroken("notTheHead", seq);
    this.last = { seq, hash: line.hash };
  }

  /** Whether the chain ends where it should. @throws {ChainBroken} */
  finish(head: AuditHead): void {
    const { last } = this;
    if (last.seq < head.seq) throw new ChainBroken("cutOff", last.seq + 1);
    if (last.seq > head.seq) throw new ChainBroken("beyondHead", head.seq + 1);
    if (last.hash !== head.hash) throw new ChainBroken("notTheHead", head.seq);
    const { writtenDown } = this.given;
    if (writtenDown && writtenDown.seq > last.seq) throw new ChainBroken("cutOff", last.seq + 1);
  }

  private isGenuine(line: AuditLine): boolean {
    const { key } = this.given;
    if (key && lineHash(line, key) === line.hash) {
      this.sealed = true;
      return true;
    }
    if (this.sealed || lineHash(line) !== line.hash) return false;
    this.unsealed += 1;
    return true;
  }
}
