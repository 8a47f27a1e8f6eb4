import { once } from "node:events";
import { Agent, createServer, type IncomingMessage, request, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";

export interface Balancer {
  url: string;
  /** Requests that each of the ports answered. */
  answered: Map<number, number>;
  close(): Promise<void>;
}

/**
 * One address before several processes, as a load balancer makes it: each request goes to the next of them, and to
 * another one where the connection fails.
 */
export async function balancer(ports: readonly number[]): Promise<Balancer> {
  const agent = new Agent({ keepAlive: true });
  const answered = new Map<number, number>();
  let turn = 0;
  const server = createServer(async (asked, reply) => {
    const body = await bodyOf(asked);
    for (let tries = 0; tries < ports.length; tries += 1) {
      turn += 1;
      const port = ports[turn % ports.length]!;
      try {
        await passOn(agent, port, asked, body, reply);
        answered.set(port, (answered.get(port) ?? 0) + 1);
        return;
      } catch {
        // The next of them may be there.
      }
    }
    reply.writeHead(502).end();
  }).listen(0, "127.0.0.1");
  await once(server, "listening");
  const { port } = server.address() as AddressInfo;
  return {
    url: `http://127.0.0.1:${port}`,
    answered,
    async close() {
      agent.destroy();
      server.closeAllConnections();
      server.close();
      await once(server, "close");
    },
  };
}

async function bodyOf(asked: IncomingMessage): Promise<Buffer> {
  const chunks: Buffer[] = [];
  for await (const chunk of asked) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks);
}

async function passOn(
  agent: Agent,
  port: number,
  { method, url, headers }: IncomingMessage,
  body: Buffer,
  reply: ServerResponse,
): Promise<void> {
  const passed = request({ agent, host: "127.0.0.1", port, method, path: url, headers });
  passed.end(body);
  const [answer] = (await once(passed, "response")) as [IncomingMessage];
  const answerBody = await bodyOf(answer);
  reply.writeHead(answer.statusCode!, answer.headers).end(answerBody);
}
