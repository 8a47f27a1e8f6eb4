import { Command, InvalidArgumentError } from "commander";
import type { AuditHead, Verification } from "../../record/audit/index.ts";
import { Failure } from "../ending.ts";
import { writeFile } from "../output/index.ts";
import { atMachine, clinicOf, dataOption, withOpenRecord } from "../record/folder.ts";
import { interruptible, writeOut } from "../terminal/index.ts";

interface AuditOptions {
  data?: string;
}

export function auditCommand(): Command {
  return new Command("audit")
    .summary("who saw and changed what: prove the trail, or take it out")
    .description(
      "The audit trail of a clinic: a chain of lines, each sealed with a hash over itself and the line before.\n" +
        "Keep its head (roundel audit head) somewhere else now and then: it proves later that no line up to it was\n" +
        "removed, altered or put in another place, even by somebody who has the whole machine.",
    )
    .addHelpText("after", examplesOf("verify --data clinic", "head --data clinic >> audit-heads.txt"))
    .addCommand(verifyCommand())
    .addCommand(headCommand())
    .addCommand(exportAuditCommand());
}

function examplesOf(...lines: string[]): string {
  return `\nExamples:\n${lines.map((line) => `  $ roundel audit ${line}\n`).join("")}`;
}

function verifyCommand(): Command {
  return new Command("verify")
    .summary("prove that no line was removed, altered, reordered or added")
    .description(
      "Walks the whole trail and names the first line that does not hold. Exit status 1 if one does not.",
    )
    .option(...dataOption)
    .option(
      "--head <seq:hash>",
      "a head that was written down earlier, which the trail must still have",
      readHead,
    )
    .addHelpText("after", examplesOf("verify --data clinic", "verify --data clinic --head 1042:5f0c…"))
    .action((options: AuditOptions & { head?: AuditHead }) =>
      withOpenRecord(options.data, async ({ store, audit }) => {
        const { clinicId } = await clinicOf(store);
        const found = await interruptible((signal) => audit.verify(clinicId, { head: options.head, signal }));
        if (!found.ok) throw new Failure(`${found.sentence} The lines before it hold.`);
        await writeOut(holding(found));
      }),
    );
}

function headCommand(): Command {
  return new Command("head")
    .summary("print where the trail ends, to be kept elsewhere")
    .option(...dataOption)
    .addHelpText("after", examplesOf("head --data clinic >> audit-heads.txt"))
    .action((options: AuditOptions) =>
      withOpenRecord(options.data, async ({ store, audit }) => {
        const { clinicId } = await clinicOf(store);
        const { seq, hash } = await audit.head(clinicId);
        await writeOut(`${seq}:${hash}\n`);
      }),
    );
}

function exportAuditCommand(): Command {
  return new Command("export")
    .summary("write the trail as JSON Lines, with the hashes that chain it")
    .option(...dataOption)
    .option("-o, --output <file>", "write to a file that only you can read; standard output when left out")
    .addHelpText("after", examplesOf("export --data clinic -o audit.jsonl"))
    .action((options: AuditOptions & { output?: string }) =>
      withOpenRecord(options.data, async ({ store, audit }) => {
        const { exportAudit } = await import("../../record/audit/index.ts");
        const { clinicId } = await clinicOf(store);
        await audit.append(clinicId, [
          { ...atMachine(), action: "exportAudit", objects: [], outcome: "done" },
        ]);
        const lines = exportAudit(audit, clinicId, { exportedAt: new Date().toISOString() });
        const { output } = options;
        if (output !== undefined) return interruptible((signal) => writeFile(output, lines, signal));
        for await (const line of lines) await writeOut(line);
      }),
    );
}

function holding({ lines, head, unsealed }: Extract<Verification, { ok: true }>): string {
  const told = [`The trail holds: ${lines} lines. Its head is ${head.seq}:${head.hash}`];
  if (unsealed > 0) {
    told.push(
      `Lines 1 to ${unsealed} are chained but not sealed with the record's key: they were written before it had one, or not by Roundel.`,
    );
  }
  return `${told.join("\n")}\n`;
}

function readHead(text: string): AuditHead {
  const [, seq, hash] = /^(\d{1,15}):([0-9a-f]{64})$/i.exec(text.trim()) ?? [];
  if (!seq || !hash) {
    throw new InvalidArgumentError(
      "A head is what roundel audit head prints: a number, a colon, 64 letters and figures.",
    );
  }
  return { seq: Number(seq), hash: hash.toLowerCase() };
}
