import type { FastifyRequest } from "fastify";
import { hostName } from "../guard/host.ts";
import { isLoopback, loopbackNames } from "./loopback.ts";

/**
 * Whether a request comes from this machine itself, so that the demo may sign it in: both ends of the connection on
 * loopback, asked by a loopback name, passed on by nobody and asked for by no other page.
 */
export function demoMayEnter({ raw, headers }: FastifyRequest): boolean {
  const { remoteAddress, localAddress } = raw.socket;
  const site = headers["sec-fetch-site"];
  return (
    isLoopback(remoteAddress) &&
    (localAddress === undefined || isLoopback(localAddress)) &&
    loopbackNames.includes(hostName(headers.host) ?? "") &&
    headers["x-forwarded-for"] === undefined &&
    headers["x-forwarded-host"] === undefined &&
    headers.forwarded === undefined &&
    (site === undefined || site === "same-origin" || site === "none")
  );
}
