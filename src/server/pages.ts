import { existsSync } from "node:fs";
import { join, sep } from "node:path";
import fastifyStatic from "@fastify/static";
import type { FastifyReply, FastifyRequest } from "fastify";
import type { Bench } from "./bench.ts";
import { Refusal } from "./errors/refusal.ts";
import { bodyOf } from "./errors/reply.ts";
import type { ErrorCode } from "./errors/table.ts";

/** The bench's pages from a built folder: every address that is no file is the page's own to read. */
export function servePages(bench: Bench, webDir: string | null): void {
  const isBuilt = webDir !== null && existsSync(join(webDir, "index.html"));
  if (isBuilt) {
    bench.register(fastifyStatic, {
      root: webDir,
      cacheControl: false,
      setHeaders(reply, path) {
        reply.setHeader("cache-control", isHashed(path) ? "public, max-age=31536000, immutable" : "no-cache");
      },
    });
  }
  bench.setNotFoundHandler((request, reply) => {
    if (!isPage(request)) refuse(reply, "notFound");
    else if (isBuilt) reply.sendFile("index.html");
    else refuse(reply, "pagesNotBuilt");
  });
}

/** The build names these by their content, so that they never change. */
function isHashed(path: string): boolean {
  return path.includes(`${sep}assets${sep}`);
}

function isPage({ method, url }: FastifyRequest): boolean {
  const [path = ""] = url.split("?");
  const isRead = method === "GET" || method === "HEAD";
  return (
    isRead && path !== "/api" && !path.startsWith("/api/") && !path.slice(path.lastIndexOf("/")).includes(".")
  );
}

function refuse(reply: FastifyReply, code: ErrorCode): void {
  const refusal = new Refusal(code);
  reply.code(refusal.status).send(bodyOf(refusal));
}
