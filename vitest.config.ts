import { defineConfig } from "vitest/config";

/** `npm test` runs both projects; the browser project starts the real server and a real Chromium. */
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: "unit",
          include: [
            "src/**/*.test.ts",
            "src/**/*.test.tsx",
            "test/reference/**/*.test.ts",
            "test/layers/**/*.test.ts",
            "scripts/**/*.test.mjs",
          ],
          testTimeout: 20_000,
        },
      },
      {
        test: {
          name: "browser",
          include: ["test/browser/**/*.test.ts", "test/printed/**/*.test.ts"],
          testTimeout: 60_000,
          hookTimeout: 60_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
