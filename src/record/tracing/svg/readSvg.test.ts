import { describe, expect, it } from "vitest";
import { radiusAtClockHour } from "../../../domain/outline/index.ts";
import { UnreadableTracing } from "../unreadable.ts";
import { readSvg } from "./index.ts";
import { mmPerPx } from "./length.ts";

const drawing = (attributes: string, content: string) =>
  `<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" ${attributes}>${content}</svg>`;
const inMm = (content: string) => drawing('width="100mm" height="100mm" viewBox="0 0 100 100"', content);
const only = (text: string) => {
  const { outlines } = readSvg(text);
  expect(outlines).toHaveLength(1);
  return outlines[0]!;
};
const codeOf = (text: string): string => {
  try {
    readSvg(text);
    return "read";
  } catch (error) {
    if (!(error instanceof UnreadableTracing)) throw error;
    expect(error.message).toMatch(/^[A-Z].*\.$/s);
    return error.note.code;
  }
};

/** @source closed forms: circle π r², ellipse π a b, rounded rectangle w h − (4 − π) r² */
describe("shapes come out at their own size", () => {
  it("a circle of 30 mm has its area within 0.1 %, and its line within 0.02 mm", () => {
    const circle = only(inMm('<circle cx="50" cy="40" r="15"/>'));
    expect(Math.abs(circle.areaMm2 / (Math.PI * 15 ** 2) - 1)).toBeLessThan(0.001);
    for (const [x, y] of circle.outline) {
      expect(Math.abs(Math.hypot(x - 50, y + 40) - 15)).toBeLessThan(0.02);
    }
    expect([circle.joinedMm, circle.problem]).toEqual([0, null]);
  });

  it.each([
    ["an ellipse", '<ellipse cx="50" cy="50" rx="14" ry="15.5"/>', Math.PI * 14 * 15.5, 28, 31],
    ["a rectangle", '<rect x="10" y="10" width="28" height="31"/>', 28 * 31, 28, 31],
    [
      "a rounded rectangle",
      '<rect x="10" y="10" width="28" height="31" rx="5"/>',
      28 * 31 - (4 - Math.PI) * 25,
      28,
      31,
    ],
    ["a polygon", '<polygon points="0,0 20,0 20,10"/>', 100, 20, 10],
    ["a polyline that is not closed", '<polyline points="0 0 20 0 20 10"/>', 100, 20, 10],
    ["a path with every relative command", '<path d="m10 10h20v10H10z"/>', 200, 20, 10],
  ])("%s", (_name, shape, areaMm2, widthMm, lengthMm) => {
    const outline = only(inMm(shape));
    expect(Math.abs(outline.areaMm2 / areaMm2 - 1)).toBeLessThan(0.001);
    expect(outline.widthMm).toBeCloseTo(widthMm, 2);
    expect(outline.lengthMm).toBeCloseTo(lengthMm, 2);
  });

  it("cubic and quadratic curves keep within the tolerance of a parabola's area", () => {
    // The arch y = 4 h x (w − x) / w² is one quadratic curve; its area is two thirds of its box (Archimedes).
    const quadratic = only(inMm('<path d="M0 50 Q 15 10 30 50 Z"/>'));
    const cubic = only(inMm('<path d="M0 50 C 10 23.3333333 20 23.3333333 30 50 Z"/>'));
    expect(quadratic.areaMm2).toBeCloseTo((2 / 3) * 30 * 20, 0);
    expect(cubic.areaMm2).toBeCloseTo(quadratic.areaMm2, 3);
  });

  it("up the page is up, so the head side stays up", () => {
    const { outline } = only(inMm('<path d="M50 10 L60 60 L40 60 Z"/>'));
    const highest = outline.reduce((a, b) => (b[1] > a[1] ? b : a));
    expect(highest[0]).toBeCloseTo(50, 9);
  });

  it("a line left open is closed and says how far its ends lay apart", () => {
    expect(only(inMm('<path d="M10 10 H40 V40 H10 V13"/>')).joinedMm).toBeCloseTo(3, 9);
  });
});

describe("units", () => {
  it("377.9528 CSS pixels are 100 mm (CSS Values and Units: 96 px an inch; the facts' check value 38)", () => {
    expect(377.9528 * mmPerPx).toBeCloseTo(100, 4);
  });

  const circle = '<circle cx="50" cy="50" r="15"/>';
  it.each([
    ["millimetres", 'width="100mm" height="100mm" viewBox="0 0 100 100"', 30],
    ["centimetres", 'width="10cm" height="10cm" viewBox="0 0 100 100"', 30],
    ["inches", 'width="1in" height="1in" viewBox="0 0 100 100"', 7.62],
    ["points", 'width="72pt" height="72pt" viewBox="0 0 100 100"', 7.62],
    ["pixels, 96 an inch", 'width="96" height="96" viewBox="0 0 100 100"', 7.62],
    ["no viewBox: user units are pixels", 'width="200mm" height="200mm"', (30 * 25.4) / 96],
    [
      "the smaller scale where the box has another shape",
      'width="100mm" height="50mm" viewBox="0 0 100 100"',
      15,
    ],
  ])("%s", (_name, size, acrossMm) => {
    expect(only(drawing(size, circle)).widthMm).toBeCloseTo(acrossMm, 2);
  });

  it("stretches both ways only where the file says so", () => {
    const size = 'width="100mm" height="50mm" viewBox="0 0 100 100" preserveAspectRatio="none"';
    const { widthMm, lengthMm } = only(drawing(size, circle));
    expect(widthMm).toBeCloseTo(30, 2);
    expect(lengthMm).toBeCloseTo(15, 2);
  });

  it("reads lengths with units inside the drawing", () => {
    const size = 'width="96px" height="96px" viewBox="0 0 96 96"';
    expect(only(drawing(size, '<circle cx="12mm" cy="12mm" r="1cm"/>')).widthMm).toBeCloseTo(20, 2);
  });

  it("says so when the scale is assumed, and is silent when the file states it", () => {
    const assumed = (size: string) => readSvg(drawing(size, circle)).notes.map(({ code }) => code);
    expect(assumed('viewBox="0 0 100 100"')).toEqual(["scaleAssumed"]);
    expect(assumed('width="300" height="300"')).toEqual(["scaleAssumed"]);
    expect(assumed('width="100mm" height="100mm" viewBox="0 0 100 100"')).toEqual([]);
  });
});

/** @source SVG 2, 8.5: matrices worked by hand */
describe("transforms", () => {
  const square = '<rect x="0" y="0" width="10" height="10" transform="TRANSFORM"/>';
  it.each([
    ["translate(5 7)", 10, 10],
    ["scale(2)", 20, 20],
    ["scale(2,3)", 20, 30],
    ["rotate(45)", 10 * Math.SQRT2, 10 * Math.SQRT2],
    ["rotate(45 5 5)", 10 * Math.SQRT2, 10 * Math.SQRT2],
    ["skewX(45)", 20, 10],
    ["matrix(0 2 -3 0 1 1)", 30, 20],
    ["translate(3) , scale(2) rotate(90)", 20, 20],
  ])("%s", (transform, widthMm, lengthMm) => {
    const outline = only(inMm(square.replace("TRANSFORM", transform)));
    expect(outline.widthMm).toBeCloseTo(widthMm, 6);
    expect(outline.lengthMm).toBeCloseTo(lengthMm, 6);
  });

  it("those of groups apply outside in: scale(2) round translate(10 0) puts the corner at 20", () => {
    const group =
      '<g transform="scale(2)"><g transform="translate(10 0)"><rect width="10" height="10"/></g></g>';
    const { outline } = only(inMm(group));
    expect(Math.min(...outline.map(([x]) => x))).toBeCloseTo(20, 9);
  });

  it("a mirrored arc bulges to the other side: a half disc of radius 10 stays a half disc", () => {
    const half = '<path d="M0 0 A10 10 0 0 1 20 0 L20 5 L0 5Z" transform="translate(50 50) scale(-1 1)"/>';
    expect(only(inMm(half)).areaMm2).toBeCloseTo((Math.PI * 100) / 2 + 100, 0);
    expect(only(inMm(half.replace(" scale(-1 1)", ""))).areaMm2).toBeCloseTo((Math.PI * 100) / 2 + 100, 0);
  });

  it("an arc stays an ellipse when it is stretched and turned", () => {
    const path =
      '<path d="M-10 0 A10 10 0 0 1 10 0 A10 10 0 0 1 -10 0Z" transform="translate(50 50) rotate(30) scale(1.5 1)"/>';
    const ellipse = only(inMm(path));
    expect(Math.abs(ellipse.areaMm2 / (Math.PI * 15 * 10) - 1)).toBeLessThan(0.001);
    // Long axis turned clockwise by 30° from three o'clock lies at four o'clock.
    expect(radiusAtClockHour(ellipse.outline, 4)).toBeCloseTo(15, 1);
  });
});

describe("several lines", () => {
  it("are offered by name in the file's order; lettering and hidden parts are left out", () => {
    const { outlines, notes } = readSvg(
      inMm(`<g id="layer"><circle id="stoma" cx="20" cy="20" r="15"/><path d="M50 50h30v30h-30z M60 60h10v10h-10z"/></g>
        <rect width="1" height="1"/><circle r="9" display="none"/><circle r="9" style="fill:red;display:none"/>
        <defs><circle r="9"/></defs><text>31 mm</text><image href="scan.png"/>`),
    );
    expect(outlines.map(({ name }) => name)).toEqual(["stoma", "path, line 1", "path, line 2"]);
    expect(notes.map(({ code }) => code)).toEqual(["notRead", "tooSmall"]);
    expect(notes[0]!.text).toContain("text, image");
  });

  it("one that crosses itself stays in the list with the place where it does", () => {
    const { problem } = only(inMm('<polygon points="0,0 20,20 20,0 0,20"/>'));
    expect(problem).toMatchObject({ code: "crossesItself", params: { xMm: 10, yMm: -10 } });
  });
});

describe("hostile and broken files are data, and refused", () => {
  const bomb = `<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>`;
  it.each([
    ["a script", inMm('<script>alert(1)</script><circle r="15"/>'), "script"],
    [
      "a page inside",
      inMm('<foreignObject><body xmlns="http://www.w3.org/1999/xhtml"/></foreignObject>'),
      "script",
    ],
    ["an event handler", inMm('<circle r="15" onload="alert(1)"/>'), "script"],
    ["a link that runs", inMm('<a href=" javascript:alert(1)"><circle r="15"/></a>'), "script"],
    ["entities of its own", `${bomb}<svg xmlns="http://www.w3.org/2000/svg"/>`, "entities"],
    ["an entity that is not declared", inMm('<circle r="&a;"/>'), "brokenXml"],
    ["half a file", inMm('<circle r="15"/>').slice(0, -8), "brokenXml"],
    ["another kind of XML", "<html><body/></html>", "notSvg"],
    ["a drawing without lines", inMm("<text>31 mm</text>"), "noOutline"],
    ["a path that breaks off", inMm('<path d="M0 0 L10"/>'), "pathData"],
    ["a path of nonsense", inMm('<path d="M0 0 X 10 10"/>'), "pathData"],
    [
      "a transform that is not read whole",
      inMm('<circle r="15" transform="scale(2) blow(3)"/>'),
      "transform",
    ],
    ["a style that moves", inMm('<circle r="15" style="transform:scale(2)"/>'), "styleTransform"],
    ["a radius in per cent", inMm('<circle r="15%"/>'), "length"],
    ["points without a partner", inMm('<polygon points="0,0 1,1 2"/>'), "points"],
    ["points a light year out", inMm('<polygon points="0,0 1e300,1 2,3"/>'), "tooFar"],
    ["a viewBox of nothing", drawing('width="9mm" viewBox="0 0 0 0"', '<circle r="15"/>'), "viewBox"],
    [
      "a thousand groups",
      inMm(`${"<g>".repeat(1000)}<circle r="15"/>${"</g>".repeat(1000)}`),
      "tooManyElements",
    ],
    ["a million shapes", inMm('<circle r="15"/>'.repeat(30_000)), "tooManyElements"],
  ])("%s", (_name, text, code) => {
    expect(codeOf(text)).toBe(code);
  });

  it("a plain document type, as many programs write it, is no reason to refuse", () => {
    const doctype =
      '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">';
    expect(codeOf(`${doctype}<svg xmlns="http://www.w3.org/2000/svg"><circle r="60"/></svg>`)).toBe("read");
  });
});
