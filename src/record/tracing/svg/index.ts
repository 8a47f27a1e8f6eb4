import { type Note, note } from "../../../domain/note.ts";
import { type TracedOutline, type TracingFile, tracedOutline } from "../traced.ts";
import { unreadable } from "../unreadable.ts";
import { type DrawnElement, svgElements } from "./elements.ts";
import { flattenPath } from "./flatten.ts";
import { scaleOf, type ToMillimetres } from "./scale.ts";
import { shapePath } from "./shape.ts";
import { checkedTransform } from "./transform.ts";

/** Lines smaller than this across are lettering or ticks, not a stoma. */
const leastAcrossMm = 3;

/**
 * The closed lines of an SVG drawing in millimetres. Read: path, polygon, polyline, rect, circle, ellipse;
 * transforms; width, height and viewBox with units. Curves keep within 0.02 mm. Text, pictures and copies by
 * `use` are left out and said so.
 *
 * @throws UnreadableTracing
 */
export function readSvg(text: string): TracingFile {
  const { root, drawn } = svgElements(text);
  const scale = scaleOf(root);
  const skipped = new Set<string>();
  const all: TracedOutline[] = [];
  for (const element of drawn) {
    const lines = linesOf(element, scale);
    if (lines === null) skipped.add(element.element);
    else all.push(...lines);
  }
  const outlines = all.filter(({ lengthMm, widthMm }) => Math.max(lengthMm, widthMm) >= leastAcrossMm);
  if (outlines.length === 0) {
    unreadable(
      "noOutline",
      "The file holds no closed line of 3 mm or more. Save the traced outline as a path.",
    );
  }
  return {
    format: "svg",
    outlines,
    notes: [...scale.notes, ...leftOut(skipped, all.length - outlines.length)],
  };
}

function linesOf({ element, attributes, chain }: DrawnElement, scale: ToMillimetres): TracedOutline[] | null {
  const path = shapePath(element, attributes);
  if (path === null) return null;
  if (path.trim() === "") return [];
  const transforms = chain.map(checkedTransform).filter(Boolean);
  const lines = flattenPath(path, transforms, scale.matrix);
  return lines.flatMap((line, index) => {
    const number = lines.length > 1 ? `, line ${index + 1}` : "";
    return tracedOutline(`${nameOf(element, attributes)}${number}`, line) ?? [];
  });
}

function nameOf(element: string, { id }: Readonly<Record<string, string>>): string {
  return id ? id.slice(0, 60) : element;
}

function leftOut(skipped: ReadonlySet<string>, small: number): Note[] {
  const notes: Note[] = [];
  if (skipped.size > 0) {
    const names = [...skipped].join(", ");
    notes.push(note("notRead", `Left out, since they are not lines: ${names}.`, { elements: names }));
  }
  if (small > 0) {
    notes.push(
      note("tooSmall", `${small} lines under ${leastAcrossMm} mm across were left out.`, { count: small }),
    );
  }
  return notes;
}
