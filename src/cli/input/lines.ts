const newline = 0x0a;

/** The lines of a stream of bytes, without their line ends; only one line is held at a time. */
export async function* linesOf(stream: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  let begun: Uint8Array[] = [];
  for await (const chunk of stream) {
    let from = 0;
    for (let end = chunk.indexOf(newline); end !== -1; end = chunk.indexOf(newline, from)) {
      yield Buffer.concat([...begun, chunk.subarray(from, end)]);
      begun = [];
      from = end + 1;
    }
    if (from < chunk.length) begun.push(chunk.subarray(from));
  }
  if (begun.length > 0) yield Buffer.concat(begun);
}
