import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { roundel } from "../../../test/cli/roundel.ts";
import { clinicDetails, clinicEntry, clinicId } from "../../../test/record/samples.ts";
import { openRecord } from "../../record/open/index.ts";

let folder: string;
let data: string[];
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "account-"));
  vi.stubEnv("XDG_CONFIG_HOME", join(folder, "settings"));
  data = ["--data", join(folder, "clinic")];
  const { store, accounts, close } = await openRecord({ dataDir: data[1]! });
  await store.append([clinicEntry()]);
  const about = { clinicId, passwordHash: null };
  await accounts.create({ ...about, signInName: "ines", displayName: "Ines\nMarlow", role: "lead" }, 0);
  await accounts.create({ ...about, signInName: "bram", displayName: "Bram Okonjo", role: "nurse" }, 1);
  await close();
});
afterAll(() => rmSync(folder, { recursive: true }));

const account = (...args: string[]) => roundel(["account", ...args, ...data]);

describe("roundel account", () => {
  it("lists who can sign in, one a line", async () => {
    const { status, stdout } = await account("list");
    expect([status, stdout.split("\n")]).toEqual([
      0,
      [
        `ines\tlead\tInes\\u000aMarlow\t${clinicDetails.name}`,
        `bram\tnurse\tBram Okonjo\t${clinicDetails.name}`,
        "",
      ],
    ]);
  });

  it("gives a lead who cannot get in a link that works once, at the address that is named", async () => {
    const { status, stdout } = await account("recover", "INES", "--url", "https://bench.clinic.example");
    expect([status, stdout]).toEqual([
      0,
      expect.stringMatching(/^https:\/\/bench\.clinic\.example\/recover#[\w-]{43}\n$/),
    ]);
    const { accounts, close } = await openRecord({ dataDir: data[1]! });
    const link = await accounts.links.look(stdout.trim().split("#")[1]!, ["recover"], Date.now());
    expect(link).toMatchObject({ clinicId, kind: "recover" });
    await close();
  });

  it("gives a set-up link for another clinic, and none where a lead is there", async () => {
    const another = await account("setup-link", "--new-clinic");
    expect(another.stdout).toMatch(/^http:\/\/localhost:4747\/set-up#[\w-]{43}\n$/);
    const { status, stderr } = await account("setup-link");
    expect([status, stderr]).toEqual([2, expect.stringContaining("Every clinic here has a lead")]);
  });

  it("closes an account, but not the only lead's", async () => {
    expect((await account("close", "bram")).stdout).toBe("bram is closed.\n");
    expect((await account("list")).stdout).toMatch(/^bram\t.*\tclosed \d{4}-\d\d-\d\d$/m);
    const { status, stderr } = await account("close", "ines");
    expect([status, stderr]).toEqual([2, expect.stringContaining("the clinic's only lead")]);
  });

  it.each([
    [["recover", "nobody"], /Nobody signs in here as nobody/],
    [["close", "bram"], /Nobody signs in here as bram/],
    [["recover", "ines", "--url", "bench"], /written like https:/],
  ])("%j is refused with status 2 and a sentence", async (args, sentence) => {
    const { status, stdout, stderr } = await account(...args);
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(sentence);
  });
});
