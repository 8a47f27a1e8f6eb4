import { describe, expect, it } from "vitest";
import type { AuditAction } from "../../../record/audit/actions.ts";
import type { AuditLine } from "../../../record/audit/line.ts";
import { runsOf } from "./runs.ts";

let seq = 100;
function line(action: AuditAction, personId: string, more: Partial<AuditLine> = {}): AuditLine {
  seq -= 1;
  return {
    seq,
    clinicId: "c",
    atMs: seq * 1000,
    accountId: "ines",
    sessionId: "s",
    action,
    objects: [{ kind: "person", id: personId }],
    outcome: "done",
    prev: "",
    hash: "",
    ...more,
  };
}

describe("lines that say the same one after the other", () => {
  it("are told once, with how often and since when; none is lost", () => {
    const lines = [
      line("readPerson", "a"),
      line("readPerson", "a"),
      line("readPerson", "b"),
      line("readPerson", "a"),
    ];
    const runs = runsOf(lines);
    expect(runs.map(({ times }) => times)).toEqual([2, 1, 1]);
    expect(runs[0]).toMatchObject({ line: lines[0], fromMs: lines[1]!.atMs });
    expect(runs.reduce((sum, { times }) => sum + times, 0)).toBe(lines.length);
  });

  it("stay apart where another did it, or where it was refused", () => {
    const same = ["readPerson", "a"] as const;
    const lines = [line(...same), line(...same, { accountId: "hal" }), line(...same, { outcome: "refused" })];
    expect(runsOf(lines)).toHaveLength(3);
  });
});
