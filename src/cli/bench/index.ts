import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Command, InvalidArgumentError, Option } from "commander";
import { demoFolder } from "../demo/folder.ts";
import { Failure, Refusal } from "../ending.ts";

interface ServeCommandOptions {
  data?: string;
  demo?: boolean;
  freshDemo?: boolean;
  port?: number;
  host?: string;
  allowHost?: string[];
}

export function serveCommand(): Command {
  return new Command("serve")
    .summary("open the bench in a browser, in the foreground")
    .description("Opens the bench on this machine until Ctrl-C. Name a data folder, or open the demo.")
    .option("--data <folder>", "the data folder of the clinic; made when it is not there")
    .option("--demo", "invented people in a folder of their own: data/demo unless --data names another")
    .option("--fresh-demo", "delete the demo that is there, with everything tried in it, and make it anew")
    .addOption(new Option("--port <number>", "the port to answer on").env("PORT").argParser(readPort))
    .option("--host <address>", "the address to answer on; this machine alone when left out")
    .option("--allow-host <name...>", "other names under which browsers may ask for the bench")
    .addHelpText("after", examples)
    .action(serveBench);
}

const examples = `
Examples:
  $ roundel serve --demo
  $ roundel serve --data clinic --port 4800
  $ roundel serve --demo --fresh-demo

The bench has no sign-in: whoever reaches its address can read and write the record.
`;

function readPort(text: string): number {
  const port = Number(text);
  if (!/^\d+$/.test(text) || port > 65_535)
    throw new InvalidArgumentError("A port is a number from 0 to 65535.");
  return port;
}

async function serveBench({
  data,
  demo,
  freshDemo,
  port,
  host,
  allowHost,
}: ServeCommandOptions): Promise<void> {
  const isDemo = demo || freshDemo;
  if (data === undefined && !isDemo) {
    throw new Refusal("Which record? Name its folder with --data, or open invented people with --demo.");
  }
  const dataDir = data ?? demoFolder();
  if (isDemo) await openDemo(dataDir, freshDemo);
  const { serve, ListenError } = await import("../../server/index.ts");
  const served = await serve({ dataDir, webDir: pages(), host, port, allowedHosts: allowHost }).catch(
    (error) => {
      throw error instanceof ListenError ? new Failure(error.message) : error;
    },
  );
  console.log(`Roundel is open at ${served.url}/`);
  console.log(
    `Its data lie in ${dataDir}${isDemo ? " (the demo: invented people only)" : ""}. Ctrl-C stops it.`,
  );
  await served.closed;
}

async function openDemo(dataDir: string, remake = false): Promise<void> {
  const [{ readyDemo }, { todayIn }] = await Promise.all([
    import("../demo/ready.ts"),
    import("../../record/entry/index.ts"),
  ]);
  const { madeOn, isNew } = await readyDemo(dataDir, { remake });
  const today = todayIn(Intl.DateTimeFormat().resolvedOptions().timeZone, Date.now());
  if (isNew) console.log(`The demo was made in ${dataDir}.`);
  else if (madeOn !== today) {
    console.log(
      `The demo was made on ${madeOn}, so that much of it is overdue by now. It was kept, since you may have tried\n` +
        "things in it; --fresh-demo deletes it and makes it anew (npm start -- --fresh-demo).",
    );
  }
}

/** The built pages, beside the built program; without them the bench answers its interface alone. */
function pages(): string {
  const webDir = fileURLToPath(new URL("../../web", import.meta.url));
  if (!existsSync(webDir))
    throw new Failure(`The pages are not built (there is no ${webDir}). Run npm run build.`);
  return webDir;
}
