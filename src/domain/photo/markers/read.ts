import { card } from "../../frame-card/index.ts";
import { homographyOf, mapped } from "../mapping/homography.ts";
import { valueAt } from "../picture/grey.ts";
import type { Plane } from "../picture/pixels.ts";
import type { Quad } from "./quad.ts";

/** A quad that carries the modules of one of the card's markers, its corners in the marker's own order. */
export interface ReadMarker {
  id: number;
  /** Top left, top right, bottom right, bottom left, as the marker lies with its head side up. */
  corners: Quad;
  wrongModules: number;
}

/** Modules that may be misread: the dictionary's markers differ in at least four, so one wrong can be told. */
const mostWrongInside = 1;
const mostWrongOnBorder = 2;
/** Light of black modules over white ones above which nothing can be read. */
const mostBlackToWhite = 0.72;

const modules = 6;

/** Reads a quad as a marker of the card; null where it carries none. */
export function readMarker(light: Plane, quad: Quad): ReadMarker | null {
  const seen = modulesSeen(light, quad);
  if (seen === null) return null;
  let best: ReadMarker | null = null;
  for (let turn = 0; turn < 4; turn++) {
    const turned = turnedBy(seen, turn);
    for (const marker of card.markers) {
      const wrong = wrongModules(turned, marker.modules);
      if (wrong.inside > mostWrongInside || wrong.border > mostWrongOnBorder) continue;
      const wrongInAll = wrong.inside + wrong.border;
      if (best !== null && best.wrongModules <= wrongInAll) continue;
      best = { id: marker.id, corners: cornersFrom(quad, turn), wrongModules: wrongInAll };
    }
  }
  return best;
}

/** Rows of modules, 1 = white, seen from the quad's first corner clockwise. */
function modulesSeen(light: Plane, quad: Quad): number[][] | null {
  const toPicture = homographyOf(quad.map((to, at) => ({ from: unitCorners[at]!, to })));
  const means = Array.from({ length: modules }, (_, row) =>
    Array.from({ length: modules }, (_, column) => {
      let sum = 0;
      for (const down of inModule) {
        for (const across of inModule) {
          const [x, y] = mapped(toPicture, [(column + across) / modules, (row + down) / modules]);
          sum += valueAt(light, x, y);
        }
      }
      return sum / inModule.length ** 2;
    }),
  );
  const sorted = means.flat().sort((a, b) => a - b);
  // Twenty border modules are black; a marker has at least three white ones.
  const black = sorted[9]!;
  const white = sorted[sorted.length - 3]!;
  if (black > mostBlackToWhite * white) return null;
  const between = Math.sqrt(Math.max(black, 1e-4) * white);
  return means.map((row) => row.map((mean) => (mean > between ? 1 : 0)));
}

const inModule = [0.3, 0.5, 0.7];
const unitCorners = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
] as const;

/** The rows as they are seen from the corner that is `turn` further clockwise. */
function turnedBy(rows: readonly number[][], turn: number): number[][] {
  let turned = rows.map((row) => [...row]);
  for (let i = 0; i < turn; i++) {
    turned = turned.map((_, row) => turned.map((_, column) => turned[column]![modules - 1 - row]!));
  }
  return turned;
}

function cornersFrom(quad: Quad, turn: number): Quad {
  return [0, 1, 2, 3].map((at) => quad[(at + turn) % 4]!) as unknown as Quad;
}

function wrongModules(seen: readonly number[][], printed: readonly (readonly number[])[]) {
  let [inside, border] = [0, 0];
  for (let row = 0; row < modules; row++) {
    for (let column = 0; column < modules; column++) {
      if (seen[row]![column] === printed[row]![column]) continue;
      const onBorder = row % (modules - 1) === 0 || column % (modules - 1) === 0;
      if (onBorder) border += 1;
      else inside += 1;
    }
  }
  return { inside, border };
}
