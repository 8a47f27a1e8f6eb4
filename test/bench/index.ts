import { cpus } from "node:os";

type Print = (line: string) => void;

/** What is measured, by the name it is asked for: npm run bench -- wear */
const benches: Record<string, () => Promise<(print: Print) => void | Promise<void>>> = {
  opening: async () => (await import("./opening.ts")).benchOpening,
  healing: async () => (await import("./healing.ts")).benchHealing,
  wear: async () => (await import("./wear.ts")).benchWear,
  siting: async () => (await import("./siting.ts")).benchSiting,
  photo: async () => (await import("./photo.ts")).benchPhoto,
  "cutting-sheet": async () => (await import("./cutting-sheet.ts")).benchCuttingSheet,
  scale: async () => (await import("./scale.ts")).benchScale,
  load: async () => (await import("./load.ts")).benchLoad,
};

/** Those that take many minutes run only when they are named. */
const long = ["scale", "load"];

const names = process.argv.slice(2);
const unknown = names.filter((name) => !Object.hasOwn(benches, name));
if (unknown.length > 0) {
  console.error(`There is no bench ${unknown.join(", ")}; there are ${Object.keys(benches).join(", ")}.`);
  process.exit(2);
}

const machine = cpus();
console.log(
  `Node ${process.versions.node}, ${machine.length} cores, ${machine[0]?.model.trim() ?? "unknown processor"}`,
);
const usual = Object.keys(benches).filter((name) => !long.includes(name));
for (const name of names.length > 0 ? names : usual) {
  const bench = await benches[name]!();
  console.log(`\n${name}`);
  await bench((line) => console.log(`  ${line}`));
}
