/** CIE 1976 L*a*b*, white D65, 2° observer. */
export type Lab = readonly [lightness: number, a: number, b: number];

/** Light of the sRGB primaries to CIE XYZ; rows sum to the white, so that greys have no colour. @source IEC 61966-2-1 */
const xyz = [
  [0.4123907993, 0.3575843394, 0.1804807884],
  [0.2126390059, 0.7151686788, 0.0721923154],
  [0.0193308187, 0.1191947798, 0.9505321522],
] as const;

const white = xyz.map(([r, g, b]) => r + g + b);
const epsilon = 216 / 24389;
const kappa = 24389 / 27;

/** L*a*b* of light in the sRGB primaries, each 0 to 1. @source CIE 15:2004 */
export function labOf(red: number, green: number, blue: number): Lab {
  const [x, y, z] = xyz.map(([r, g, b], at) => bent((r * red + g * green + b * blue) / white[at]!));
  return [116 * y! - 16, 500 * (x! - y!), 200 * (y! - z!)];
}

function bent(share: number): number {
  return share > epsilon ? Math.cbrt(share) : (kappa * share + 16) / 116;
}
