import { useMutation } from "@tanstack/react-query";
import { askForFile } from "./request.ts";

/** Fetches a file and hands it to the browser to save: a plain link could not ask who is there. */
export function useTakeOut() {
  return useMutation<void, Error, string>({
    mutationFn: async (path) => {
      const { blob, fileName } = await askForFile(path);
      const url = URL.createObjectURL(blob);
      const link = Object.assign(document.createElement("a"), { href: url, download: fileName ?? "" });
      link.click();
      // The browser has its own hold on the file by the next turn.
      setTimeout(() => URL.revokeObjectURL(url), 60_000);
    },
  });
}
