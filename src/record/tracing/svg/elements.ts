import { SaxesParser } from "saxes";
import { unreadable } from "../unreadable.ts";

/** An element that draws, with the transforms of everything round it. */
export interface DrawnElement {
  element: string;
  attributes: Readonly<Record<string, string>>;
  /** Attributes of the element and its ancestors, from the element outward; the root's are left out. */
  chain: readonly Readonly<Record<string, string>>[];
}

export interface SvgElements {
  root: Readonly<Record<string, string>>;
  drawn: DrawnElement[];
}

const svgNamespace = "http://www.w3.org/2000/svg";
const mostElements = 20_000;
const deepest = 100;

/** What these hold is a stencil, not a drawing. */
const notDrawn = new Set([
  "defs",
  "clipPath",
  "mask",
  "pattern",
  "marker",
  "symbol",
  "linearGradient",
  "filter",
]);
const containers = new Set(["g", "a", "switch"]);
const ignored = new Set(["title", "desc", "metadata", "style", "line", "tspan", "stop", "namedview"]);
const forbidden = new Set(["script", "foreignObject", "handler", "listener", "iframe", "embed", "object"]);

/**
 * Reads an SVG file as data: nothing in it is run, followed or expanded.
 *
 * @throws UnreadableTracing for scripts, entities of its own, broken XML, and files beyond all measure
 */
export function svgElements(text: string): SvgElements {
  const parser = new SaxesParser({ xmlns: true });
  const open: { name: string; attributes: Readonly<Record<string, string>>; drawn: boolean }[] = [];
  const found: SvgElements = { root: {}, drawn: [] };
  let count = 0;

  parser.on("error", (error) => {
    unreadable("brokenXml", `The file is not whole: ${error.message.replace(/^undefined:/, "line ")}.`);
  });
  parser.on("doctype", (doctype) => {
    if (!doctype.includes("[")) return;
    unreadable(
      "entities",
      "The file declares entities of its own, which are not read. Save it as plain SVG.",
    );
  });
  parser.on("opentag", ({ local, uri, attributes }) => {
    if (++count > mostElements || open.length > deepest) {
      unreadable("tooManyElements", "The file has too many parts for a tracing. Save the outline alone.");
    }
    const own = uri === svgNamespace || uri === "";
    const values = plainAttributes(attributes);
    refuseActive(local, values);
    if (open.length === 0) {
      if (!own || local !== "svg")
        unreadable("notSvg", `The file begins with “${local}”: it is not an SVG drawing.`);
      if (values.transform)
        unreadable("transform", "The whole drawing is moved at once. Save it as plain SVG.");
      found.root = values;
      open.push({ name: local, attributes: {}, drawn: true });
      return;
    }
    const parent = open.at(-1)!;
    const drawn = parent.drawn && own && !notDrawn.has(local) && !isHidden(values);
    if (drawn) take(local, values);
    open.push({ name: local, attributes: values, drawn });
  });
  parser.on("closetag", () => {
    open.pop();
  });

  function take(element: string, attributes: Readonly<Record<string, string>>) {
    if (element === "svg")
      unreadable("nested", "The file holds a drawing inside a drawing. Save it as plain SVG.");
    if (containers.has(element) || ignored.has(element)) return;
    const around = open.slice(1).map((one) => one.attributes);
    found.drawn.push({ element, attributes, chain: [attributes, ...around.reverse()] });
  }

  parser.write(text).close();
  return found;
}

function plainAttributes(
  attributes: Record<string, { local: string; prefix: string; value: string }>,
): Record<string, string> {
  return Object.fromEntries(
    Object.values(attributes).map(({ local, prefix, value }) => [
      prefix ? `${prefix}:${local}` : local,
      value,
    ]),
  );
}

function refuseActive(element: string, attributes: Record<string, string>): void {
  const isActive =
    forbidden.has(element) ||
    Object.entries(attributes).some(([name, value]) => /^on/i.test(name) || /^\s*javascript:/i.test(value));
  if (isActive)
    unreadable("script", "The file holds a script or a page of its own, which a tracing never needs.");
}

function isHidden({ display, style = "" }: Record<string, string>): boolean {
  return display?.trim() === "none" || /(?:^|;)\s*display\s*:\s*none/i.test(style);
}
