import { unreadable } from "../unreadable.ts";

const number = String.raw`[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?`;
const numbers = (least: number, most: number) =>
  String.raw`\s*${number}(?:[\s,]+${number}){${least - 1},${most - 1}}\s*`;
const one = [
  String.raw`matrix\s*\(${numbers(6, 6)}\)`,
  String.raw`translate\s*\(${numbers(1, 2)}\)`,
  String.raw`scale\s*\(${numbers(1, 2)}\)`,
  String.raw`rotate\s*\((?:${numbers(1, 1)}|${numbers(3, 3)})\)`,
  String.raw`skew[XY]\s*\(${numbers(1, 1)}\)`,
].join("|");
const wholeList = new RegExp(String.raw`^\s*(?:(?:${one})[\s,]*)*$`);

/**
 * The transform of an element as SVG writes it. A list that cannot be read whole would put the line in the wrong
 * place or at the wrong size, so it is refused. @throws UnreadableTracing
 */
export function checkedTransform(attributes: Readonly<Record<string, string>>): string {
  if (/(?:^|;)\s*(?:transform|scale|rotate|translate|zoom)\s*:/i.test(attributes.style ?? "")) {
    unreadable(
      "styleTransform",
      "The file moves its lines by a style, which is not read. Save it as plain SVG.",
    );
  }
  const transform = attributes.transform ?? "";
  if (transform.length > 2000 || !wholeList.test(transform)) {
    const shown = transform.slice(0, 40);
    unreadable("transform", `The file moves a line by “${shown}”, which is not read. Save it as plain SVG.`);
  }
  return transform;
}
