import { spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const breaches: [from: string, to: string][] = [
  ["src/domain/wear/record.ts", "../../record/entry/index.ts"],
  ["src/domain/wear/web.ts", "../../web/shared/api/index.ts"],
  ["src/domain/wear/node.ts", "node:fs"],
  ["src/record/story/documents.ts", "../../documents/index.ts"],
  ["src/record/story/server.ts", "../../server/index.ts"],
  ["src/documents/server.ts", "../server/index.ts"],
  ["src/documents/cli.ts", "../cli/main.ts"],
  ["src/web/server.ts", "../server/index.ts"],
  ["src/cli/web.ts", "../web/clinic/main.ts"],
  ["src/server/cli.ts", "../cli/main.ts"],
];

const allowed: [from: string, to: string][] = [
  ["src/domain/wear/protocol.ts", "../protocol/index.ts"],
  ["src/record/story/wear.ts", "../../domain/wear/index.ts"],
  ["src/documents/record.ts", "../record/story/index.ts"],
  ["src/web/record.ts", "../record/story/index.ts"],
  ["src/cli/server.ts", "../server/index.ts"],
];

/** A scratch tree under the project's own lint rules, with one file for each import in question. */
const tree = mkdtempSync(join(tmpdir(), "layers-"));
let refused: Set<string>;

beforeAll(() => {
  copyFileSync("biome.json", join(tree, "biome.json"));
  for (const [from, to] of [...breaches, ...allowed]) {
    mkdirSync(dirname(join(tree, from)), { recursive: true });
    writeFileSync(join(tree, from), `import { x } from "${to}";\nconsole.log(x);\n`);
  }
  const biome = join(process.cwd(), "node_modules/.bin/biome");
  const { stdout } = spawnSync(
    biome,
    ["lint", "--vcs-enabled=false", "--reporter=json", "--max-diagnostics=none", "."],
    { cwd: tree, encoding: "utf8" },
  );
  const report = JSON.parse(stdout) as {
    diagnostics: { category: string; location: { path: string | { file: string } } }[];
  };
  refused = new Set(
    report.diagnostics
      .filter(({ category }) => category === "lint/style/noRestrictedImports")
      .map(({ location: { path } }) => (typeof path === "string" ? path : path.file)),
  );
});

afterAll(() => rmSync(tree, { recursive: true }));

describe("imports go one way: web, cli, server to documents, record, to domain", () => {
  it.each(breaches)("%s may not import %s", (from) => {
    expect([...refused]).toContain(from);
  });
  it.each(allowed)("%s may import %s", (from) => {
    expect([...refused]).not.toContain(from);
  });
});
