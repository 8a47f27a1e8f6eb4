import { mirror, type Outline } from "../../../../domain/outline/index.ts";

const sizesMm = { A4: [210, 297], Letter: [215.9, 279.4] } as const;

/** The cutting sheet small: both faces with this very opening, mirrored for the skin side as it will be. */
export function SheetPreview({
  paper,
  stoma,
  opening,
}: {
  paper: "A4" | "Letter";
  stoma: Outline;
  opening: Outline;
}) {
  const [wide, high] = sizesMm[paper];
  const faces = [
    { middle: wide / 4 + 6, turned: mirror },
    { middle: (wide * 3) / 4 - 6, turned: (outline: Outline) => outline },
  ];
  return (
    <svg
      className="fit-preview"
      viewBox={`0 0 ${wide} ${high}`}
      role="img"
      aria-label={`Small picture of the cutting sheet, ${paper}: the opening facing the skin and facing you`}
    >
      <path className="fit-preview-ink" d="M20 26h70v7h-70z" />
      <path className="fit-preview-grey" d={`M20 38h${wide - 100}v3h-${wide - 100}zM20 44h92v3h-92z`} />
      {faces.map(({ middle, turned }) => (
        <g key={middle} transform={`translate(${middle} 98)`}>
          <circle r="37" className="fit-preview-ring" />
          <path className="fit-preview-cut" d={path(turned(opening))} />
          <path className="fit-preview-stoma" d={path(turned(stoma))} />
          <path className="fit-preview-ink" d="M0-48l3 6h-6z" />
        </g>
      ))}
      <path className="fit-preview-bar" d={`M20 152v4h100v-4M${wide - 20} 150h-4v100h4`} />
      <path className="fit-preview-grey" d={[0, 1, 2, 3, 4, 5, 6].map(textLine).join("")} />
    </svg>
  );
}

function textLine(row: number): string {
  const width = [120, 132, 110, 126, 98, 120, 80][row]!;
  return `M20 ${172 + row * 9}h${width}v3h${-width}z`;
}

function path(outline: Outline): string {
  return `M${outline.map(([x, y]) => `${x.toFixed(1)} ${(-y).toFixed(1)}`).join("L")}Z`;
}
