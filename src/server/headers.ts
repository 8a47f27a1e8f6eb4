import helmet from "@fastify/helmet";
import type { Bench } from "./bench.ts";

/**
 * What a browser may do with the bench's pages: load and ask nothing but the bench itself, show it in no frame, keep
 * no answer about a person. No inline script or style. There is no HTTPS on loopback to insist on.
 */
export function setHeaders(bench: Bench): void {
  bench.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'"],
        fontSrc: ["'self'"],
        imgSrc: ["'self'", "blob:"],
        connectSrc: ["'self'"],
        manifestSrc: ["'self'"],
        workerSrc: ["'self'"],
        frameSrc: ["'self'", "blob:"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
        baseUri: ["'none'"],
        objectSrc: ["'none'"],
      },
    },
    referrerPolicy: { policy: "no-referrer" },
    strictTransportSecurity: false,
    xFrameOptions: { action: "deny" },
  });
  bench.addHook("onSend", async (request, reply) => {
    reply.header("permissions-policy", "camera=(), geolocation=(), microphone=()");
    if (request.url.startsWith("/api/")) reply.header("cache-control", "no-store");
  });
}
