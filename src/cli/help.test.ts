import type { Command } from "commander";
import { describe, expect, it } from "vitest";
import { roundel } from "../../test/cli/roundel.ts";
import { program } from "./program.ts";

/** Every command as it is typed, `roundel` itself as the empty one. */
function commandLines(command: Command, before: string[] = []): string[][] {
  return [before, ...command.commands.flatMap((inner) => commandLines(inner, [...before, inner.name()]))];
}

const all = commandLines(program());

describe("help", () => {
  it("covers the commands of the guide", () => {
    const names = all.map((words) => words.join(" "));
    for (const name of [
      "compute",
      "serve",
      "demo",
      "import",
      "import log",
      "export",
      "export log",
      "rebuild",
      "backup",
      "restore",
      "check",
      "move",
      "keys recovery",
      "keys prove",
      "keys rotate",
      "keys status",
      "print cutting-sheet",
      "print frame-card",
      "print siting-record",
    ]) {
      expect(names).toContain(name);
    }
  });

  it.each(all.map((words) => [["roundel", ...words].join(" "), words] as const))(
    "of %s shows an example of it",
    async (line, words) => {
      const { status, stdout, stderr } = await roundel([...words, "--help"]);
      expect([status, stderr]).toEqual([0, ""]);
      expect(stdout).toMatch(new RegExp(`\\$ (.*\\| )?${line}`));
    },
  );
});

describe("usage", () => {
  it.each([
    [["weather"], /unknown command 'weather'/],
    [["compute", "wear", "--fast"], /unknown option '--fast'/],
    [["export"], /Name its folder with --data/],
    [["serve", "--demo", "--port", "high"], /A port is a number from 0 to 65535/],
    [["serve"], /Name its folder with --data/],
    [["print", "frame-card", "--paper", "A3"], /Allowed choices are A4, Letter/],
    [["print", "frame-card", "--scale", "1;1"], /Give two numbers with a comma/],
    [["export", "--data", "/no/such/folder"], /holds no record/],
    [["import", "record.jsonl"], /Name its folder with --data/],
  ])("%j is refused with status 2 and a sentence", async (args, sentence) => {
    const { status, stdout, stderr } = await roundel(args);
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(sentence);
    expect(stderr).not.toMatch(/^\s+at /m);
  });

  it("tells its version", async () => {
    const { status, stdout } = await roundel(["--version"]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
});
