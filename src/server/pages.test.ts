import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { brotliDecompressSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type TestBench, testBench } from "../../test/server/bench.ts";

let folder: string;
let bench: TestBench;
const script = `console.log(${JSON.stringify("x".repeat(4000))});`;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "roundel-pages-"));
  mkdirSync(join(folder, "assets"));
  writeFileSync(join(folder, "index.html"), "<!doctype html><title>Roundel</title>");
  writeFileSync(join(folder, "assets", "main-abc123.js"), script);
  bench = await testBench(undefined, { webDir: folder });
});
afterAll(async () => {
  await bench.close();
  rmSync(folder, { recursive: true });
});

describe("pages", () => {
  it.each(["/", "/index.html", "/people", "/people/0b7c/stomas/1/fitting?tab=2", "/a/b/c"])(
    "%s is the bench's page, asked for anew each time",
    async (url) => {
      const { status, text, headers } = await bench.get(url);
      expect([status, text, headers["cache-control"]]).toEqual([
        200,
        "<!doctype html><title>Roundel</title>",
        "no-cache",
      ]);
    },
  );

  it("keep what the build names by its content", async () => {
    const { headers, status } = await bench.get("/assets/main-abc123.js");
    expect([status, headers["cache-control"]]).toEqual([200, "public, max-age=31536000, immutable"]);
  });

  it("travel compressed where the browser reads that", async () => {
    const { headers, bytes } = await bench.get("/assets/main-abc123.js", { "accept-encoding": "br" });
    expect(headers["content-encoding"]).toBe("br");
    expect(brotliDecompressSync(bytes).toString()).toBe(script);
    expect(bytes.length).toBeLessThan(script.length / 10);
  });

  it.each([
    "/assets/gone.js",
    "/favicon.ico",
    "/../package.json",
    "/%2e%2e/package.json",
    "/assets/..%2f..%2fpackage.json",
  ])("%s is not the page, and nothing outside the folder", async (url) => {
    const { status, json } = await bench.get(url);
    expect([400, 404]).toContain(status);
    expect(["badRequest", "notFound"]).toContain(json.error.code);
  });

  it("that are not built are told so, and the interface answers all the same", async () => {
    const bare = await testBench();
    expect((await bare.get("/")).json.error.code).toBe("pagesNotBuilt");
    expect((await bare.get("/api/session")).status).toBe(200);
    await bare.close();
  });
});

describe("every answer", () => {
  it.each(["/", "/api/session", "/assets/main-abc123.js", "/api/nothing"])(
    "%s tells the browser what it may not do",
    async (url) => {
      const { headers } = await bench.get(url);
      const policy = String(headers["content-security-policy"]);
      expect(policy).toContain("default-src 'none'");
      expect(policy).toContain("script-src 'self'");
      expect(policy).toContain("frame-ancestors 'none'");
      expect(policy).not.toMatch(/unsafe|data:|\*|upgrade-insecure/);
      expect(headers["x-content-type-options"]).toBe("nosniff");
      expect(headers["referrer-policy"]).toBe("no-referrer");
      expect(headers).not.toHaveProperty("x-powered-by");
      expect(headers).not.toHaveProperty("server");
      expect(headers).not.toHaveProperty("strict-transport-security");
      expect(headers).not.toHaveProperty("access-control-allow-origin");
    },
  );

  it("about people is kept by no cache", async () => {
    for (const url of ["/api/session", "/api/people", "/api/export.jsonl", "/api/nothing"]) {
      expect((await bench.get(url)).headers["cache-control"]).toBe("no-store");
    }
  });
});
