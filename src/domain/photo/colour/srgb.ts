/** Light (0 to 1) of each of the 256 values of an sRGB channel. @source IEC 61966-2-1 */
const lights = Float32Array.from({ length: 256 }, (_, value) => lightOf(value / 255));

/** Light of an encoded channel, both 0 to 1. @source IEC 61966-2-1 */
export function lightOf(encoded: number): number {
  return encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
}

/** Encoded channel of a light, both 0 to 1. @source IEC 61966-2-1 */
export function encodedOf(light: number): number {
  return light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;
}

/** Light of a byte of a picture. */
export function lightOfByte(byte: number): number {
  return lights[byte]!;
}
