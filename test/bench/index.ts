import { cpus } from "node:os";

type Print = (line: string) => void;

/** What is measured, by the name it is asked for: npm run bench -- wear */
const benches: Record<string, () => Promise<(print: Print) => void | Promise<void>>> = {
  opening: async () => (await import("./opening.ts")).benchOpening,
  healing: async () => (await import("./healing.ts")).benchHealing,
  wear: async () => (await import("./wear.ts")).benchWear,
  "cutting-sheet": async () => (await import("./cutting-sheet.ts")).benchCuttingSheet,
};

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
for (const name of names.length > 0 ? names : Object.keys(benches)) {
  const bench = await benches[name]!();
  console.log(`\n${name}`);
  await bench((line) => console.log(`  ${line}`));
}
