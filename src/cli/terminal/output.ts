import { once } from "node:events";

/** Writes to standard output and waits where the reader is slower. */
export async function writeOut(chunk: string | Uint8Array): Promise<void> {
  if (!process.stdout.write(chunk)) await once(process.stdout, "drain");
}

/** A reader that has seen enough (`| head`) closes the pipe; that is no failure. */
export function quietWhenReaderLeaves(): void {
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
    process.exit(0);
  });
}
