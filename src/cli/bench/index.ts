import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Command, Option } from "commander";
import type { Served } from "../../server/index.ts";
import { demoFolder } from "../demo/folder.ts";
import { Failure, Refusal } from "../ending.ts";
import { keyFileNamed } from "../record/named.ts";
import { benchPlace, homePlace, type ReachOptions, readOrigin, readPort } from "./reach.ts";

interface ServeCommandOptions extends ReachOptions {
  data?: string;
  database?: string;
  demo?: boolean;
  freshDemo?: boolean;
  insecureHttp?: boolean;
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
    .option("--tls-cert <file>", "a certificate with its chain, PEM: the bench answers https itself")
    .option("--tls-key <file>", "the key of that certificate, PEM")
    .addOption(
      new Option(
        "--public-url <url>",
        "where browsers find the bench, when a proxy stands before it",
      ).argParser(readOrigin),
    )
    .option("--behind-proxy <address>", "the address of that proxy, whose word about the sender is believed")
    .option("--insecure-http", "answer plain http over a network all the same; never with real people")
    .addOption(new Option("--home-port <number>", "serve the home log too, on this port").argParser(readPort))
    .option("--home-host <address>", "the address of the home log; this machine alone when left out")
    .option("--home-tls-cert <file>", "a certificate for the home log, PEM")
    .option("--home-tls-key <file>", "the key of that certificate, PEM")
    .addOption(
      new Option("--home-url <url>", "where browsers find the home log, behind the same proxy").argParser(
        readOrigin,
      ),
    )
    .addHelpText("after", examples)
    .action(serveBench);
}

const examples = `
Examples:
  $ roundel serve --demo
  $ roundel serve --data clinic --port 4800
  $ roundel serve --data clinic --host 192.0.2.10 --tls-cert cert.pem --tls-key key.pem
  $ roundel serve --data clinic --public-url https://bench.clinic.example --behind-proxy 127.0.0.1

Over a network it answers https alone: see docs/guide/deploying.md.
`;

async function serveBench(options: ServeCommandOptions): Promise<void> {
  const { data, demo, freshDemo, insecureHttp } = options;
  const isDemo = Boolean(demo || freshDemo);
  if (data === undefined && !isDemo) {
    throw new Refusal("Which record? Name its folder with --data, or open invented people with --demo.");
  }
  const dataDir = data ?? demoFolder();
  const [place, home] = [await benchPlace(options), await homePlace(options)];
  if (isDemo) await openDemo(dataDir, freshDemo);
  // The demo is always a folder: invented people never go into a database of real ones.
  const databaseUrl = isDemo ? undefined : options.database || undefined;
  const served = await opened({
    dataDir,
    databaseUrl,
    keyFile: keyFileNamed(),
    webDir: pages(),
    ...place,
    home,
    insecureHttp,
    demoSignIn: isDemo,
  });
  if (insecureHttp) {
    console.error("Warning: over http, names, passwords and records can be read by anyone on the network.");
  }
  sayWhere(served, databaseUrl === undefined ? dataDir : `the database, and its log in ${dataDir}`, isDemo);
  await served.closed;
}

async function opened(
  options: Parameters<typeof import("../../server/index.ts")["serve"]>[0],
): Promise<Served> {
  const [{ serve, ListenError, UnsafeReach }, { DatabaseFault }] = await Promise.all([
    import("../../server/index.ts"),
    import("../../record/store/index.ts"),
  ]);
  try {
    return await serve(options);
  } catch (error) {
    if (error instanceof UnsafeReach) throw new Refusal(error.message);
    if (error instanceof ListenError || error instanceof DatabaseFault) throw new Failure(error.message);
    throw error;
  }
}

function sayWhere(served: Served, dataDir: string, isDemo: boolean): void {
  const { url, homeUrl, setUpLinks, hasRecoveryKey } = served;
  console.log(`Roundel is open at ${url}/`);
  if (homeUrl !== null) console.log(`The home log is open at ${homeUrl}/`);
  for (const link of setUpLinks) {
    console.log(
      `Nobody leads here yet. Whoever opens this link first makes the lead's account (it holds for a day):\n  ${link}`,
    );
  }
  if (!hasRecoveryKey && !isDemo) {
    console.log(
      "It has no recovery key yet: if its key file is lost, photographs and backups are. Make one with",
    );
    console.log("  roundel keys recovery (see docs/guide/backups.md).");
  }
  console.log(
    `Its data lie in ${dataDir}${isDemo ? " (the demo: invented people only)" : ""}. Ctrl-C stops it.`,
  );
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
