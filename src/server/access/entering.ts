import type { FastifyReply, FastifyRequest } from "fastify";
import { type Account, type Counted, newSecret, sessionLimits } from "../../record/accounts/index.ts";
import type { Workings } from "../bench.ts";
import { Refusal } from "../errors/refusal.ts";
import { deviceWords } from "./device.ts";

type Parts = Pick<Workings, "accounts" | "cookies" | "now">;

/** Signs an account in at this browser, with a new session in place of whatever was there. */
export async function signIn(
  { accounts, cookies, now }: Parts,
  account: Account,
  request: FastifyRequest,
  reply: FastifyReply,
): Promise<void> {
  const nowMs = now();
  const { signedIn } = request;
  if (signedIn) await accounts.sessions.end(signedIn.account, signedIn.sessionId);
  const { sessionId, secret } = await accounts.sessions.start(account, {
    listener: "bench",
    device: deviceWords(request.headers["user-agent"]),
    nowMs,
  });
  cookies.setSession(reply, secret);
  const { strongMs, idleMs, absoluteMs } = sessionLimits;
  const endsMs = { idle: nowMs + idleMs, absolute: nowMs + absoluteMs };
  request.signedIn = { account, sessionId, strongUntilMs: nowMs + strongMs, endsMs };
  const device = cookies.deviceOf(request) ?? newSecret();
  await accounts.devices.remember(account, device, nowMs);
  cookies.setDevice(reply, device);
}

/** Notes that whoever is signed in has just proved who they are, and gives the session another secret. */
export async function confirmed(
  { accounts, cookies, now }: Parts,
  request: FastifyRequest,
  reply: FastifyReply,
): Promise<{ strongUntilMs: number }> {
  const signedIn = request.signedIn!;
  const nowMs = now();
  cookies.setSession(reply, await accounts.sessions.strengthen(signedIn, nowMs));
  const strongUntilMs = nowMs + sessionLimits.strongMs;
  request.signedIn = { ...signedIn, strongUntilMs };
  return { strongUntilMs };
}

/**
 * What a try at a name is counted against: the account alone at a browser it knows, so that strangers never bar its
 * owner; otherwise the name for all strangers together, and the address.
 */
export async function countedFor(
  { accounts, cookies, now }: Parts,
  request: FastifyRequest,
  nameKey: string,
  account: Account | null,
): Promise<Counted[]> {
  const device = cookies.deviceOf(request);
  if (account && device !== null && (await accounts.devices.isKnown(account, device, now()))) {
    return [{ kind: "known", parts: [account.accountId, device] }];
  }
  return [{ kind: "stranger", parts: [nameKey] }, countedAddress(request)];
}

export function countedAddress({ ip }: FastifyRequest): Counted {
  return { kind: "address", parts: [networkOf(ip)] };
}

/**
 * Does what may fail because of a wrong secret, as often as the throttle allows.
 * @param attempt null where the secret was wrong
 * @throws {Refusal} `waitBeforeSignIn`, or `failure` where the secret was wrong
 */
export async function throttled<T>(
  { accounts, now }: Pick<Parts, "accounts" | "now">,
  counted: readonly Counted[],
  failure: "signInFailed" | "passkeyFailed",
  attempt: () => Promise<T | null>,
): Promise<T> {
  const taken = await accounts.throttle.take(counted, now());
  if (!taken.allowed) {
    throw new Refusal("waitBeforeSignIn", { waitSeconds: Math.ceil(taken.waitMs / 1000) });
  }
  const done = await attempt();
  if (done === null) throw new Refusal(failure);
  await accounts.throttle.succeeded(counted);
  return done;
}

/** Whoever has one address of an IPv6 network has all of the last 64 bits. */
export function networkOf(ip: string): string {
  if (!ip.includes(":")) return ip;
  const mapped = /^::ffff:([\d.]+)$/i.exec(ip);
  if (mapped) return mapped[1]!;
  const [head = "", tail] = ip.split("::");
  const left = head.split(":").filter(Boolean);
  const right = tail === undefined ? [] : tail.split(":").filter(Boolean);
  const zeros = Array.from({ length: Math.max(0, 8 - left.length - right.length) }, () => "0");
  return [...left, ...zeros, ...right]
    .slice(0, 4)
    .map((part) => Number.parseInt(part, 16).toString(16))
    .join(":");
}
