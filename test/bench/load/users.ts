import { Agent, type IncomingMessage, request } from "node:http";
import { setTimeout as pause } from "node:timers/promises";
import { type Chance, chanceFrom } from "../../../src/record/demo/chance.ts";

export interface Asked {
  what: string;
  method: "GET" | "POST";
  path: string;
  body?: string;
}

export interface Answered {
  what: string;
  ms: number;
  /** Null where no answer came. */
  status: number | null;
}

export interface LoadOptions {
  port: number;
  /** One cookie a user. */
  cookies: readonly string[];
  seconds: number;
  /** Mean of the pauses between two requests of one user. */
  thinkMs: number;
  next(chance: Chance): Asked;
}

/** Users who each ask one thing after the other, with pauses, each over a connection of their own. */
export async function load(options: LoadOptions): Promise<Answered[]> {
  const { cookies, seconds } = options;
  const agent = new Agent({ keepAlive: true, maxSockets: cookies.length });
  const answers: Answered[] = [];
  const untilMs = Date.now() + seconds * 1000;
  await Promise.all(cookies.map((cookie, index) => user(options, cookie, index, agent, untilMs, answers)));
  agent.destroy();
  return answers;
}

async function user(
  { port, thinkMs, next }: LoadOptions,
  cookie: string,
  index: number,
  agent: Agent,
  untilMs: number,
  answers: Answered[],
): Promise<void> {
  const chance = chanceFrom(index + 1);
  await pause(chance.between(0, thinkMs));
  while (Date.now() < untilMs) {
    const asked = next(chance);
    const before = performance.now();
    const status = await ask(asked, port, cookie, agent).catch(() => null);
    answers.push({ what: asked.what, ms: performance.now() - before, status });
    await pause(chance.lifetime(1, thinkMs));
  }
}

function ask({ method, path, body }: Asked, port: number, cookie: string, agent: Agent): Promise<number> {
  return new Promise((resolve, reject) => {
    const headers = { cookie, ...(body === undefined ? {} : { "content-type": "application/json" }) };
    const sent = request(
      { agent, host: "127.0.0.1", port, method, path, headers },
      (answer: IncomingMessage) => {
        answer.resume();
        answer.once("end", () => resolve(answer.statusCode!));
        answer.once("error", reject);
      },
    );
    sent.once("error", reject);
    sent.end(body);
  });
}
