/**
 * What the bytes 0x80 to 0x9F mean in Windows-1252; all others mean the same code point. Node's own decoder
 * takes these 32 for control characters.
 * @source WHATWG Encoding Standard, index windows-1252
 */
const from80 = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ";

/** Text in Windows-1252. */
export function decodeWestern(bytes: Uint8Array): string {
  let text = "";
  for (const byte of bytes) {
    text += byte >= 0x80 && byte < 0xa0 ? from80[byte - 0x80] : String.fromCharCode(byte);
  }
  return text;
}
