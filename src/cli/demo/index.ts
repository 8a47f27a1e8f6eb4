import { Command } from "commander";
import { writeOut } from "../terminal/index.ts";
import { demoFolder } from "./folder.ts";

export function demoCommand(): Command {
  return new Command("demo")
    .summary("make the demo: an invented clinic with invented people")
    .description(
      "Makes the demo in a folder of its own. A folder with real people is refused; a demo that is there is kept,\n" +
        "unless --remake says to delete it and everything that was tried in it.",
    )
    .option("--data <folder>", "where; data/demo of this project when left out")
    .option("--remake", "delete the demo that is there and make it anew, as of today")
    .addHelpText("after", "\nExamples:\n  $ roundel demo\n  $ roundel demo --data try-out --remake\n")
    .action(makeDemo);
}

async function makeDemo({ data = demoFolder(), remake }: { data?: string; remake?: boolean }): Promise<void> {
  const { readyDemo } = await import("./ready.ts");
  const { madeOn, isNew } = await readyDemo(data, { remake });
  await writeOut(
    isNew
      ? `The demo was made in ${data}.\n`
      : `The demo in ${data} was made on ${madeOn} and was kept. --remake makes it anew.\n`,
  );
}
