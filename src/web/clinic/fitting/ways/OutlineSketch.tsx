import { dimensionsOf, type Outline } from "../../../../domain/outline/index.ts";

const sidePx = 140;

/** A line by itself, as large as its square allows: to tell one from another. */
export function OutlineSketch({ outline, label }: { outline: Outline; label: string }) {
  const { lengthMm, widthMm } = dimensionsOf(outline);
  const scale = (sidePx - 12) / Math.max(lengthMm, widthMm);
  const left = Math.min(...outline.map(([x]) => x));
  const head = Math.max(...outline.map(([, y]) => y));
  const places = outline.map(([x, y]) => {
    const px = (x - left) * scale + (sidePx - widthMm * scale) / 2;
    const py = (head - y) * scale + (sidePx - lengthMm * scale) / 2;
    return `${px.toFixed(1)} ${py.toFixed(1)}`;
  });
  return (
    <svg className="fit-sketch" width={sidePx} height={sidePx} role="img" aria-label={label}>
      <path className="fit-stoma-line" d={`M${places.join("L")}Z`} />
    </svg>
  );
}
