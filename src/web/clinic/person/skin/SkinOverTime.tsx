import { useMemo } from "react";
import type { StomaStory } from "../../../../record/story/index.ts";
import { type Scale, scale, ticks, useDrawing } from "../../../shared/chart/index.ts";
import { ScrollTable, Sentence } from "../../../shared/ui/index.ts";
import { shortDay, skinSignWords } from "../../../shared/words/index.ts";
import { SkinMap } from "../../skin/index.ts";
import { area, type SkinFacts, type SkinLook, skinFacts, skinWords } from "./facts.ts";
import "./skinOverTime.css";

/** What was seen on the skin: where at the last look, and how much of it over time. */
export function SkinOverTime({ stoma }: { stoma: StomaStory }) {
  const facts = useMemo(() => skinFacts(stoma), [stoma]);
  const last = stoma.skin.at(-1)?.entry.body;
  if (!last) return null;
  return (
    <section className="skin-over-time">
      <h2>Skin round the stoma</h2>
      <div className="skin-spread">
        <figure>
          {facts.signs.length > 0 && facts.looks.length > 1 && <Chart facts={facts} />}
          <figcaption className="note">
            Area of each sign at each look; filled: the part in skin that the opening of that day left bare;
            dashed line: all the skin that it left bare. Signs have no order and are never added.
          </figcaption>
          <Table facts={facts} />
        </figure>
        <div>
          {last.about && last.findings.length > 0 && <SkinMap about={last.about} findings={last.findings} />}
          {skinWords(facts, skinSignWords).map((text) => (
            <p key={text}>
              <Sentence text={text} />
            </p>
          ))}
          {last.feels && last.feels.length > 0 && <p>Felt: {last.feels.join(", ")}.</p>}
        </div>
      </div>
    </section>
  );
}

const rowHeight = 96;

function Chart({ facts: { looks, signs } }: { facts: SkinFacts }) {
  const { ref, width, text } = useDrawing<HTMLDivElement>();
  const days = looks.map(({ on }) => Date.parse(on));
  const most = Math.max(
    ...looks.flatMap(({ areas, bareSkinMm2 }) => [bareSkinMm2 ?? 0, ...areas.map(({ areaMm2 }) => areaMm2)]),
  );
  const x = scale([Math.min(...days), Math.max(...days)], [70 * text, width - 24 * text]);
  const height = signs.length * rowHeight * text + 30 * text;
  return (
    <div ref={ref}>
      {width > 0 && (
        <svg
          width={width}
          height={height}
          role="img"
          aria-label={`Area of each sign over ${looks.length} looks; the same as a table below.`}
        >
          {signs.map((sign, row) => (
            <Row
              key={sign}
              name={skinSignWords[sign]}
              points={looks.map((look) => ({ look, area: look.areas.find(({ what }) => what === sign) }))}
              x={x}
              y={scale([0, most], [(row + 1) * rowHeight * text, (row * rowHeight + 26) * text])}
              most={most}
              right={width - 10 * text}
              text={text}
            />
          ))}
          <Days looks={looks} x={x} bottom={height - 8 * text} text={text} />
        </svg>
      )}
    </div>
  );
}

interface RowProps {
  name: string;
  points: { look: SkinLook; area: SkinLook["areas"][number] | undefined }[];
  x: Scale;
  y: Scale;
  most: number;
  right: number;
  text: number;
}

function Row({ name, points, x, y, most, right, text }: RowProps) {
  const barWidth = 8 * text;
  const bare = points.filter(({ look }) => look.bareSkinMm2 !== null);
  return (
    <g>
      <text x={0} y={y(most) - 10 * text} fontSize={13 * text} fontWeight={700}>
        {name}
      </text>
      {ticks([0, most], 2).map((value) => (
        <g key={value}>
          <line
            x1={62 * text}
            x2={right}
            y1={y(value)}
            y2={y(value)}
            stroke={value === 0 ? "var(--ink-3)" : "var(--rule)"}
          />
          <text x={58 * text} y={y(value) + 4 * text} fontSize={12 * text} textAnchor="end" className="c2">
            {value}
          </text>
        </g>
      ))}
      <polyline
        className="skin-bare"
        points={bare.map(({ look }) => `${x(Date.parse(look.on))},${y(look.bareSkinMm2 ?? 0)}`).join(" ")}
      />
      {points.map(({ look, area: seen }) => {
        const at = x(Date.parse(look.on)) - barWidth / 2;
        return seen ? (
          <g key={look.entryId}>
            <rect
              className="skin-bar"
              x={at}
              width={barWidth}
              y={y(seen.areaMm2)}
              height={y(0) - y(seen.areaMm2)}
            />
            <rect
              className="skin-bar-bare"
              x={at}
              width={barWidth}
              y={y(seen.bareMm2 ?? 0)}
              height={y(0) - y(seen.bareMm2 ?? 0)}
            />
          </g>
        ) : (
          <circle key={look.entryId} className="skin-none" cx={at + barWidth / 2} cy={y(0)} r={2.5 * text} />
        );
      })}
    </g>
  );
}

function Days({ looks, x, bottom, text }: { looks: SkinLook[]; x: Scale; bottom: number; text: number }) {
  const first = looks[0]!;
  const last = looks.at(-1)!;
  const ends = first.on === last.on ? [last] : [first, last];
  return (
    <g>
      {ends.map(({ entryId, on }, at) => (
        <text
          key={entryId}
          x={x(Date.parse(on))}
          y={bottom}
          fontSize={12 * text}
          textAnchor={ends.length > 1 && at === ends.length - 1 ? "end" : "start"}
          className="c2"
        >
          {shortDay(on)}
        </text>
      ))}
    </g>
  );
}

function Table({ facts: { looks, signs } }: { facts: SkinFacts }) {
  return (
    <details className="chart-table">
      <summary>The same as a table</summary>
      <ScrollTable label="Skin at each look">
        <thead>
          <tr>
            <th scope="col">Look</th>
            <th scope="col">Bare skin</th>
            {signs.map((sign) => (
              <th scope="col" key={sign}>
                {skinSignWords[sign]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {looks.map(({ entryId, on, bareSkinMm2, areas }) => (
            <tr key={entryId}>
              <td>{shortDay(on)}</td>
              <td>{bareSkinMm2 === null ? "not known" : area(bareSkinMm2)}</td>
              {signs.map((sign) => {
                const seen = areas.find(({ what }) => what === sign);
                return <td key={sign}>{seen ? area(seen.areaMm2) : "not seen"}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </ScrollTable>
    </details>
  );
}
