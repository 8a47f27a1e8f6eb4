import type { Lab } from "./lab.ts";

const degree = Math.PI / 180;
const reach = 25 ** 7;

/**
 * CIEDE2000 colour difference, kL = kC = kH = 1: about 1 is the least difference an eye can see side by side.
 * @source Sharma, Wu & Dalal, Color Research & Application 2005;30:21-30
 */
export function colourDifference([l1, a1, b1]: Lab, [l2, a2, b2]: Lab): number {
  const meanChroma = (Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2;
  const stretch = 1 + 0.5 * (1 - Math.sqrt(meanChroma ** 7 / (meanChroma ** 7 + reach)));
  const [c1, c2] = [Math.hypot(stretch * a1, b1), Math.hypot(stretch * a2, b2)];
  const [h1, h2] = [hueDeg(stretch * a1, b1), hueDeg(stretch * a2, b2)];
  const grey = c1 * c2 === 0;
  const apart = grey ? 0 : h2 - h1;
  const turn = apart > 180 ? apart - 360 : apart < -180 ? apart + 360 : apart;
  const lightness = (l1 + l2) / 2;
  const chroma = (c1 + c2) / 2;
  const hue = meanHueDeg(h1, h2, grey);
  const t =
    1 -
    0.17 * Math.cos((hue - 30) * degree) +
    0.24 * Math.cos(2 * hue * degree) +
    0.32 * Math.cos((3 * hue + 6) * degree) -
    0.2 * Math.cos((4 * hue - 63) * degree);
  const offLightness = (lightness - 50) ** 2;
  const inLightness = (l2 - l1) / (1 + (0.015 * offLightness) / Math.sqrt(20 + offLightness));
  const inChroma = (c2 - c1) / (1 + 0.045 * chroma);
  const inHue = (2 * Math.sqrt(c1 * c2) * Math.sin((turn / 2) * degree)) / (1 + 0.015 * chroma * t);
  const twist =
    -2 *
    Math.sqrt(chroma ** 7 / (chroma ** 7 + reach)) *
    Math.sin(60 * degree * Math.exp(-(((hue - 275) / 25) ** 2)));
  return Math.sqrt(inLightness ** 2 + inChroma ** 2 + inHue ** 2 + twist * inChroma * inHue);
}

function hueDeg(a: number, b: number): number {
  if (a === 0 && b === 0) return 0;
  const hue = Math.atan2(b, a) / degree;
  return hue < 0 ? hue + 360 : hue;
}

function meanHueDeg(h1: number, h2: number, grey: boolean): number {
  if (grey) return h1 + h2;
  if (Math.abs(h1 - h2) <= 180) return (h1 + h2) / 2;
  return h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2;
}
