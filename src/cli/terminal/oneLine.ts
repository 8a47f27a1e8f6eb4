/** Control, format and line-separating characters: in a line of output they would break it or drive the terminal. */
const unprintable = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu;

/** The text with everything unprintable written as `\u001b`, so that one fault stays one line. */
export function onOneLine(text: string): string {
  return text.replace(unprintable, (character) => {
    const code = character.codePointAt(0) ?? 0;
    return code > 0xffff ? `\\u{${code.toString(16)}}` : `\\u${code.toString(16).padStart(4, "0")}`;
  });
}
