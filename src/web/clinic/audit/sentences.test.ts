import { describe, expect, it } from "vitest";
import { type AuditObject, auditActions, auditOutcomes } from "../../../record/audit/actions.ts";
import { erasureGroundKeys } from "../../../record/erasure/grounds.ts";
import { nobodyWords, type SaidLine, sentenceOfLine } from "./sentences.ts";

const person = (id: string): AuditObject => ({ kind: "person", id });
const said = (line: Partial<SaidLine> & Pick<SaidLine, "action">) =>
  sentenceOfLine({ objects: [], outcome: "done", ...line })
    .map((piece) => (typeof piece === "string" ? piece : `<${piece.kind} ${piece.id}>`))
    .join("");

describe("a line of the trail in words", () => {
  it("says what was done and leaves the names to the page", () => {
    expect(said({ action: "readPerson", objects: [person("a")] })).toBe("looked at <person a>.");
    expect(said({ action: "closeAccount", objects: [{ kind: "account", id: "x" }] })).toBe(
      "closed the account of <account x>.",
    );
  });

  it("names everybody whom a change was about", () => {
    const objects = [person("a"), person("b"), person("c"), { kind: "entry" as const, id: "e" }];
    expect(said({ action: "writeEntries", objects })).toBe(
      "wrote about <person a>, <person b> and <person c>.",
    );
  });

  it("says so where a change was about nobody", () => {
    expect(said({ action: "writeEntries", objects: [] })).toBe("wrote about the clinic.");
  });

  it("tells a refused try from a thing done", () => {
    expect(said({ action: "readPerson", objects: [person("a")], outcome: "refused" })).toBe(
      "tried to look at <person a>, and was refused.",
    );
    expect(said({ action: "signIn", outcome: "refused" })).toBe("tried to sign in, and was refused.");
  });

  it("names whom a search found, where it found few", () => {
    expect(said({ action: "listPeople" })).toBe("looked at the list of people.");
    expect(said({ action: "listPeople", objects: [person("a"), person("b")] })).toBe(
      "looked at the list of people and found <person a> and <person b>.",
    );
  });

  it("gives the ground of an erasure", () => {
    for (const ground of erasureGroundKeys) {
      const words = said({ action: "erasePerson", objects: [person("a"), { kind: "reason", id: ground }] });
      expect(words).toMatch(/^erased <person a>: [a-z].*[a-z]\.$/);
    }
  });

  it("knows every action and outcome there is", () => {
    for (const action of auditActions) {
      for (const outcome of auditOutcomes) {
        expect(said({ action, outcome }), action).toMatch(/^[a-z].*[^ ]\.$/);
        expect(said({ action, outcome })).not.toMatch(/undefined| {2}/);
        expect(nobodyWords({ action })).toMatch(/^[A-Z]/);
      }
    }
  });
});
