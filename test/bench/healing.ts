import { healingCurve } from "../../src/domain/healing/index.ts";

type Print = (line: string) => void;

const rounds = 20;
const mostMs = 30;

/** Twelve weekly guide readings of an invented stoma that shrinks from 44 to 27 mm. */
const readings = Array.from({ length: 12 }, (_, week) => ({
  day: 7 + 7 * week,
  diameterMm: Math.ceil((27 + 17 * Math.exp(-(7 + 7 * week) / 20)) / 3.175) * 3.175,
  method: "guide" as const,
}));

/** Processor time of a healing curve with its weak prior, against plain least squares of the same readings. */
export function benchHealing(print: Print): void {
  const ours = processorMs(() => healingCurve({ readings, opening: { diameterMm: 35 } }));
  const plain = processorMs(() => healingCurve({ readings, opening: { diameterMm: 35 }, prior: "none" }));
  print(
    `12 guide readings, weak prior: ${ours.toFixed(1)} ms (must be at most ${mostMs}: ${ours <= mostMs ? "yes" : "NO"}), ` +
      `plain least squares ${plain.toFixed(1)} ms, ratio ${(ours / plain).toFixed(1)}`,
  );
}

function processorMs(run: () => unknown): number {
  for (let warmUp = 0; warmUp < 5; warmUp++) run();
  const before = process.cpuUsage();
  for (let round = 0; round < rounds; round++) run();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / rounds / 1000;
}
