type Progress = (done: number, total: number) => void;

const everyMs = 100;

/**
 * Shows how far long work has come, on standard error: always when asked for, otherwise only to somebody who
 * watches a terminal. `end` leaves the last state standing.
 * @param doing what is being done, as "Rebuilding: people"
 */
export function showProgress(doing: string, asked = false): { onProgress?: Progress; end(): void } {
  const terminal = process.stderr.isTTY === true;
  if (!terminal && !asked) return { end() {} };
  let shownMs = 0;
  let last = "";
  const show = (line: string) => process.stderr.write(terminal ? `\r\x1b[K${line}` : `${line}\n`);
  return {
    onProgress(done, total) {
      last = `${doing} ${done} of ${total}`;
      const nowMs = Date.now();
      if (nowMs - shownMs < (terminal ? everyMs : everyMs * 10) && done < total) return;
      shownMs = nowMs;
      show(last);
    },
    end() {
      if (terminal && last) process.stderr.write("\n");
      last = "";
    },
  };
}
