import react from "@vitejs/plugin-react";
import { defineConfig, type UserConfig } from "vite";

/**
 * The pages that the server hands out. In development (`npm run dev:web`) requests to /api go on to a running
 * server: ROUNDEL_SERVER names it where it is not at the usual address.
 */
export default defineConfig(({ command }) => {
  // Tests build with NODE_ENV=test, which would ship the development build of React.
  if (command === "build") process.env.NODE_ENV = "production";
  return pages;
});

const pages: UserConfig = {
  root: "src/web",
  base: "/",
  plugins: [react()],
  build: {
    outDir: "../../dist/web",
    emptyOutDir: true,
    target: "es2023",
    // The server's content policy allows no data: addresses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rollupOptions: {
      treeshake: {
        // The schemas of the record stay on the server: the pages use their types and their lists of choices.
        manualPureFunctions: ["z"],
        moduleSideEffects: (id) =>
          !/\/src\/(domain|record|web\/shared\/(api|draft|words|printer))\//.test(id),
      },
    },
  },
  server: {
    proxy: { "/api": process.env.ROUNDEL_SERVER ?? "http://127.0.0.1:4747" },
  },
};
