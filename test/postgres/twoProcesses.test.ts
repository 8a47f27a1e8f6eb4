import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { type OpenRecord, openRecord } from "../../src/record/open/index.ts";
import { clinicEntry, clinicId, draft, type SamplePerson, samplePerson } from "../record/samples.ts";
import { makeAccount, signInDirectly } from "../server/bench.ts";
import { type Balancer, balancer } from "./balancer.ts";
import { emptyDatabase } from "./database.ts";
import { type Serving, serving } from "./serving.ts";

let folder: string;
let record: OpenRecord;
let processes: Serving[] = [];
let address: Balancer;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "two-processes-"));
  const url = await emptyDatabase();
  const env = { DATABASE_URL: url, XDG_CONFIG_HOME: join(folder, "settings") };
  processes = await Promise.all(["one", "two"].map((name) => serving(["--data", join(folder, name)], env)));
  vi.stubEnv("XDG_CONFIG_HOME", env.XDG_CONFIG_HOME);
  record = await openRecord({ url });
  await record.store.append([clinicEntry()]);
  address = await balancer(processes.map(({ port }) => port));
});
afterAll(async () => {
  await Promise.all(processes.map((one) => one.stop()));
  await address.close();
  await record.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Somebody signed in at a browser of their own. */
async function cookieOf(): Promise<string> {
  const cookies = new Map<string, string>();
  const account = await makeAccount(record, { role: "nurse" });
  await signInDirectly(record, account, { cookies }, Date.now());
  return [...cookies].map(([name, value]) => `${name}=${value}`).join("; ");
}

interface Written {
  acknowledged: string[];
  /** Answers other than 201, which made the writer send the same entry again. */
  repeated: number;
}

/** Writes one entry after the other, each until it is acknowledged, as the pages do. */
async function write(person: SamplePerson, until: () => boolean): Promise<Written> {
  const cookie = await cookieOf();
  const written: Written = { acknowledged: [], repeated: 0 };
  while (!until()) {
    const note = draft("noted", { text: "called" }, { personId: person.personId });
    while (!(await isAcknowledged(note, cookie))) {
      written.repeated += 1;
      await pause(50);
    }
    written.acknowledged.push(note.id as string);
  }
  return written;
}

async function isAcknowledged(entry: object, cookie: string): Promise<boolean> {
  const answer = await fetch(`${address.url}/api/entries`, {
    method: "POST",
    headers: { "content-type": "application/json", cookie },
    body: JSON.stringify({ entries: [entry] }),
  }).catch(() => null);
  if (answer && answer.status >= 400 && answer.status < 500) throw new Error(await answer.text());
  return answer?.status === 201;
}

/** Waits until a process has answered so many requests. */
async function answeredBy({ port }: Serving, count: number): Promise<void> {
  while ((address.answered.get(port) ?? 0) < count) await pause(20);
}

describe("two processes behind one address", () => {
  it("take a session that the other began", async () => {
    const cookie = await cookieOf();
    for (const { port } of processes) {
      const answer = await fetch(`http://127.0.0.1:${port}/api/session`, { headers: { cookie } });
      expect(await answer.json()).toMatchObject({ signedIn: true, clinic: { clinicId } });
    }
  });

  it("number the sheets of a stoma one after the other, however they are asked for at once", async () => {
    const person = samplePerson();
    const measured = draft(
      "measured",
      { method: "guide", shape: { guide: { shape: "round", diameterMm: 32 } } },
      person.about,
    );
    await record.store.append(person.entries);
    const cookie = await cookieOf();
    expect(await isAcknowledged(measured, cookie)).toBe(true);
    const asked = Array.from({ length: 6 }, async (_, index) => {
      const { port } = processes[index % 2]!;
      const path = `/api/people/${person.personId}/stomas/${person.stomaId}/cutting-sheet`;
      const order = { adviceId: draft("noted", { text: "" }).id, measuredId: measured.id, clearanceMm: 3 };
      return fetch(`http://127.0.0.1:${port}${path}`, {
        method: "POST",
        headers: { "content-type": "application/json", cookie },
        body: JSON.stringify(order),
      });
    });
    const answers = await Promise.all(asked);
    expect(answers.map(({ status }) => status)).toEqual(Array(6).fill(200));
    const numbers = answers.map(
      (answer) => /sheet-(\d+)-/.exec(answer.headers.get("content-disposition")!)![1],
    );
    expect(numbers.sort()).toEqual(["1", "2", "3", "4", "5", "6"]);
  });

  it("lose nothing that was acknowledged when one is killed under load, and the other serves on", async () => {
    const people = Array.from({ length: 6 }, () => samplePerson());
    await record.store.append(people.flatMap(({ entries }) => entries));
    const [first, second] = processes as [Serving, Serving];
    let done = false;
    const writing = Promise.all(people.map((person) => write(person, () => done)));
    await answeredBy(first, 60);
    await first.kill();
    const before = address.answered.get(second.port) ?? 0;
    await answeredBy(second, before + 60);
    done = true;
    const written = await writing;
    for (const [index, { acknowledged }] of written.entries()) {
      const there = await record.store.entriesOfPerson(clinicId, people[index]!.personId);
      const notes = there.filter(({ kind }) => kind === "noted").map(({ id }) => id);
      expect(notes.sort()).toEqual(acknowledged.sort());
    }
    const counts = await record.store.counts(clinicId);
    await record.store.rebuild();
    expect(await record.store.counts(clinicId)).toEqual(counts);
    await record.audit.open();
    expect(await record.audit.verify(clinicId)).toMatchObject({ ok: true });
  }, 180_000);
});
