import { describe, expect, it, vi } from "vitest";
import { interruptible, onOneLine, showProgress } from "./index.ts";

describe("a line of output", () => {
  it("stays one line and cannot drive the terminal", () => {
    expect(onOneLine("a\nb\r\u001b[31mc\u2028d\u0085e\u202ef")).toBe(
      "a\\u000ab\\u000d\\u001b[31mc\\u2028d\\u0085e\\u202ef",
    );
  });

  it("keeps what people write", () => {
    expect(onOneLine("Müller: 3 mm – «größer» 大")).toBe("Müller: 3 mm – «größer» 大");
  });
});

describe("progress", () => {
  const shownBy = (work: () => void) => {
    const write = vi.spyOn(process.stderr, "write").mockReturnValue(true);
    try {
      work();
      return write.mock.calls.map(([text]) => String(text));
    } finally {
      write.mockRestore();
    }
  };

  it("is shown when asked for, its end always", () => {
    const lines = shownBy(() => {
      const { onProgress, end } = showProgress("Rebuilding: person", true);
      for (let done = 1; done <= 1000; done += 1) onProgress?.(done, 1000);
      end();
    });
    expect(lines.at(-1)).toBe("Rebuilding: person 1000 of 1000\n");
    expect(lines.length).toBeLessThan(20);
  });

  it("is not shown to a file or a pipe", () => {
    expect(shownBy(() => showProgress("Rebuilding: person").end())).toEqual([]);
    expect(showProgress("Rebuilding: person").onProgress).toBeUndefined();
  });
});

describe("long work", () => {
  it("learns of Ctrl-C, and the signal is handled as before once it is over", async () => {
    const before = process.listenerCount("SIGINT");
    const stopped = interruptible(async (signal) => {
      process.emit("SIGINT");
      signal.throwIfAborted();
      return "went on";
    });
    await expect(stopped).rejects.toThrow(expect.objectContaining({ name: "AbortError" }));
    expect(process.listenerCount("SIGINT")).toBe(before);
  });
});
