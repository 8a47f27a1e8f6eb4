import { Command, Option } from "commander";
import type { Account } from "../../record/accounts/index.ts";
import type { AuditEvent } from "../../record/audit/index.ts";
import type { OpenRecord } from "../../record/open/index.ts";
import { readOrigin } from "../bench/reach.ts";
import { Refusal } from "../ending.ts";
import { atMachine, dataOption, withOpenRecord } from "../record/folder.ts";
import { onOneLine, writeOut } from "../terminal/index.ts";

interface AccountOptions {
  data?: string;
  url: URL;
}

const origin = new Option("--url <url>", "where browsers find the bench")
  .argParser(readOrigin)
  .default(new URL("http://localhost:4747"), "http://localhost:4747");

export function accountCommand(): Command {
  return new Command("account")
    .summary("who can sign in; a way back in for a lead")
    .description(
      "Works on the accounts of a data folder. Whoever may run this can read the folder anyway, so that no password\n" +
        "is asked for. The bench may be open meanwhile.",
    )
    .addHelpText("after", examples)
    .addCommand(
      new Command("list")
        .description("Lists every account: sign-in name, role, name, clinic, and whether it was closed.")
        .option(...dataOption)
        .addHelpText("after", "\nExamples:\n  $ roundel account list --data clinic\n")
        .action(list),
    )
    .addCommand(
      new Command("recover")
        .description(
          "Prints a link by which the owner of an account sets another password. It works once, for a day.",
        )
        .argument("<name>", "the sign-in name")
        .option(...dataOption)
        .addOption(origin)
        .addHelpText(
          "after",
          "\nExamples:\n  $ roundel account recover ines --data clinic --url https://bench.clinic.example\n",
        )
        .action(recover),
    )
    .addCommand(
      new Command("setup-link")
        .description("Prints a link that makes the lead's account where nobody leads, or another clinic.")
        .option(...dataOption)
        .option("--new-clinic", "another clinic in the same database, which sees nothing of the others")
        .addOption(origin)
        .addHelpText("after", "\nExamples:\n  $ roundel account setup-link --data clinic --new-clinic\n")
        .action(setUpLink),
    )
    .addCommand(
      new Command("close")
        .description("Closes an account at once: its sessions end, and nobody signs in to it again.")
        .argument("<name>", "the sign-in name")
        .option(...dataOption)
        .addHelpText("after", "\nExamples:\n  $ roundel account close bram --data clinic\n")
        .action(close),
    );
}

const examples = `
Examples:
  $ roundel account list --data clinic
  $ roundel account recover ines --data clinic --url https://bench.clinic.example
  $ roundel account setup-link --data clinic --new-clinic
  $ roundel account close bram --data clinic
`;

async function list({ data }: AccountOptions): Promise<void> {
  await withOpenRecord(data, async ({ store, accounts }) => {
    const { clinicStory } = await import("../../record/story/index.ts");
    for (const clinicId of await store.clinicIds()) {
      const clinic = clinicStory(await store.clinicEntries(clinicId));
      for (const account of await accounts.list(clinicId)) {
        const { signInName, role, displayName, closedMs } = account;
        const ended = closedMs === null ? "" : `closed ${new Date(closedMs).toISOString().slice(0, 10)}`;
        const cells = [signInName, role, displayName, clinic?.details.name ?? clinicId, ended];
        await writeOut(`${cells.map(onOneLine).join("\t").trimEnd()}\n`);
      }
    }
  });
}

async function recover(name: string, { data, url }: AccountOptions): Promise<void> {
  const { linkTo } = await import("../../record/accounts/index.ts");
  await withOpenRecord(data, async ({ accounts, audit }) => {
    const account = await named(accounts, name);
    if (account.demo) throw new Refusal("The demo's account has no password: roundel serve --demo opens it.");
    const { token } = await accounts.links.recover(account, null, Date.now());
    await audit.append(account.clinicId, [lineAbout(account, "makeLink")]);
    await writeOut(`${linkTo("recover", token, url.origin)}\n`);
  });
}

async function setUpLink({ data, url, newClinic }: AccountOptions & { newClinic?: boolean }): Promise<void> {
  const { linkTo } = await import("../../record/accounts/index.ts");
  await withOpenRecord(data, async ({ store, accounts }) => {
    if ((await store.mark("demo")) !== null) {
      throw new Refusal("This folder holds the demo. Real people never go beside invented ones.");
    }
    const clinicIds = await store.clinicIds();
    const waiting = clinicIds.length === 0 ? [null] : await accounts.withoutLead(clinicIds);
    if (newClinic) {
      const { token } = await accounts.links.newClinic(Date.now());
      return writeOut(`${linkTo("newClinic", token, url.origin)}\n`);
    }
    if (waiting.length === 0) {
      throw new Refusal(
        "Every clinic here has a lead. roundel account recover lets one back in; --new-clinic makes another clinic.",
      );
    }
    for (const clinicId of waiting) {
      const { token } = await accounts.links.setUp(clinicId, Date.now());
      await writeOut(`${linkTo("setUp", token, url.origin)}\n`);
    }
  });
}

async function close(name: string, { data }: AccountOptions): Promise<void> {
  const { AccountError } = await import("../../record/accounts/index.ts");
  await withOpenRecord(data, async ({ accounts, audit }) => {
    const account = await named(accounts, name);
    const { clinicId, accountId, signInName } = account;
    try {
      await accounts.close(clinicId, accountId, Date.now());
    } catch (error) {
      if (!(error instanceof AccountError)) throw error;
      throw new Refusal(`${signInName} is the clinic's only lead. Make somebody else lead first.`);
    }
    await audit.append(clinicId, [lineAbout(account, "closeAccount")]);
    await writeOut(`${onOneLine(signInName)} is closed.\n`);
  });
}

async function named(accounts: OpenRecord["accounts"], name: string): Promise<Account> {
  const account = await accounts.byName(name);
  if (!account) throw new Refusal(`Nobody signs in here as ${onOneLine(name)}.`);
  return account;
}

function lineAbout({ accountId }: Account, action: "makeLink" | "closeAccount"): AuditEvent {
  return { ...atMachine(), action, objects: [{ kind: "account", id: accountId }], outcome: "done" };
}
