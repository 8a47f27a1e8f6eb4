import { v4, v7 } from "uuid";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import {
  change,
  clinicDetails,
  clinicId,
  day,
  draft,
  instant,
  now,
  nurse,
  round,
  samplePerson,
  since,
} from "../../../test/record/samples.ts";
import { type TestBench, testBench } from "../../../test/server/bench.ts";
import { protocolKeys } from "../../domain/protocol/index.ts";
import { importRecord } from "../../record/exchange/index.ts";
import { openSqlite } from "../../record/store/index.ts";
import { personStory } from "../../record/story/index.ts";

let bench: TestBench;
beforeEach(async () => {
  bench = await testBench();
});
afterEach(() => bench.close());

const { about, personId, stomaId } = samplePerson();
const person = draft(
  "person",
  { name: "Edda Voss", birthDate: "1951-04-03", identifier: "R-1042" },
  { personId },
);
const stoma = draft(
  "stoma",
  { type: "ileostomy", construction: "end", surgeryOn: since("2026-10-20") },
  about,
);
const measured = draft("measured", round(32), { ...about, at: day("2026-11-24") });

const send = (...entries: unknown[]) => bench.post("/api/entries", { entries });
const base = `/api/people/${personId}/stomas/${stomaId}`;

describe("the session", () => {
  it("tells clinic, author, day and counts", async () => {
    await send(person, stoma);
    expect((await bench.get("/api/session")).json).toMatchObject({
      signedIn: true,
      account: { accountId: nurse.id, displayName: nurse.name, role: "lead" },
      clinic: { clinicId, details: clinicDetails },
      author: nurse,
      today: "2026-11-25",
      counts: { people: 1, active: 1, entries: 3 },
    });
  });

  it("marks invented people", async () => {
    await bench.store.setMark("demo", "yes");
    expect((await bench.get("/api/session")).json.demo).toBe(true);
  });

  it("changes with the clinic's details, which keep the nurse's id, and not without a change", async () => {
    const changed = { ...clinicDetails, nursePhone: "01632 960 200", nurse: { name: nurse.name } };
    const { json } = await bench.post("/api/clinic", { details: changed });
    expect(json.clinic.details).toMatchObject({ nursePhone: "01632 960 200", nurse });
    await bench.post("/api/clinic", { details: changed });
    expect((await bench.get("/api/session")).json.counts.entries).toBe(2);
    const [, entry] = await bench.store.clinicEntries(clinicId);
    expect(entry?.by).toEqual(nurse);
  });

  it.each([
    [{ ...clinicDetails, timeZone: "Atlantis" }, "timeZone"],
    [{ ...clinicDetails, name: "" }, "name"],
    [{ ...clinicDetails, nursePhone: "1" }, "nursePhone"],
    [{ ...clinicDetails, paper: "A3" }, "paper"],
    [{ ...clinicDetails, nurse: { name: "" } }, "nurse.name"],
    [{ ...clinicDetails, nurse: { id: "x", name: "Ines" } }, "nurse.id"],
    [{ ...clinicDetails, logo: "x" }, "logo"],
    ["Harbour Street", "details"],
  ])("keeps the clinic's details where %j is sent, and names the field", async (wrong, path) => {
    const { status, json } = await bench.post("/api/clinic", { details: wrong });
    expect([status, json.error.code]).toEqual([422, "refused"]);
    expect(json.error.faults.map((fault: { path: string }) => fault.path)).toContain(path);
    expect((await bench.get("/api/session")).json.clinic.details).toEqual(clinicDetails);
  });
});

describe("people", () => {
  it("are listed in pages and found by text", async () => {
    const many = Array.from({ length: 5 }, (_, index) =>
      draft("person", { name: `Person ${index}`, identifier: `R-${index}` }, { personId: v4() }),
    );
    await send(...many);
    const first = (await bench.get("/api/people?limit=3")).json;
    expect(first.people.map(({ name }: { name: string }) => name)).toEqual([
      "Person 0",
      "Person 1",
      "Person 2",
    ]);
    const second = (await bench.get(`/api/people?limit=3&after=${encodeURIComponent(first.next)}`)).json;
    expect(second.people).toHaveLength(2);
    expect(second.next).toBeNull();
    expect((await bench.get("/api/people?text=r-4")).json.people).toHaveLength(1);
  });

  it.each([
    "after=x",
    "after=null",
    "after=%5B1,2%5D",
    "after=%5B%22a%22%5D",
    "limit=0",
    "limit=201",
    "limit=x",
    "text=a&text=b",
    `text=${"x".repeat(201)}`,
  ])("with %s are refused", async (query) => {
    expect((await bench.get(`/api/people?${query}`)).status).toBe(422);
  });

  it("give every entry of one of them, from which the page tells the story", async () => {
    await send(person, stoma, measured);
    const { json } = await bench.get(`/api/people/${personId}`);
    expect(json.entries).toHaveLength(3);
    expect(personStory(json.entries)?.stomas[0]?.readings[0]).toMatchObject({ longestMm: 32, day: 35 });
  });

  it("who are not there are told apart from addresses that make no sense", async () => {
    expect((await bench.get(`/api/people/${v4()}`)).json.error.code).toBe("noSuchPerson");
    expect((await bench.get("/api/people/edda")).status).toBe(422);
  });
});

describe("entries", () => {
  it("come in with the author and the time, and sending them again changes nothing", async () => {
    const first = await send(person, stoma, measured);
    expect(first.status).toBe(201);
    expect(first.json.entries[2]).toMatchObject({
      by: nurse,
      recordedAt: new Date(now).toISOString(),
      cursor: 4,
    });
    expect((await send(person, stoma, measured)).json).toEqual(first.json);
  });

  it("are refused with every fault and its place, and nothing is kept", async () => {
    const wrong = draft("measured", round(500), about);
    const { status, json } = await send(person, stoma, wrong, { ...measured, mood: 1 });
    expect(status).toBe(422);
    expect(json.error.faults.map((fault: { path: string }) => fault.path)).toEqual([
      "entries.2.body.shape.guide.diameterMm",
      "entries.3.mood",
    ]);
    expect((await bench.get(`/api/people/${personId}`)).status).toBe(404);
  });

  it("show the entry in whose way they are", async () => {
    await send(person, stoma, measured);
    const reused = await send({ ...measured, body: round(40) });
    expect([reused.status, reused.json.error.code]).toEqual([409, "idReused"]);
    expect(reused.json.error.existing.body).toEqual(round(32));
    const correct = (mm: number) =>
      draft("measured", round(mm), {
        ...about,
        at: day("2026-11-24"),
        corrects: { id: measured.id as string, as: "replace" },
        reason: "misread",
      });
    await send(correct(33));
    const second = await send(correct(34));
    expect([second.status, second.json.error.code]).toEqual([409, "alreadyCorrected"]);
    expect(second.json.error.existing.body).toEqual(round(33));
  });

  it("of the bench's own making are not written this way", async () => {
    const clinic = draft("clinic", clinicDetails);
    expect((await send(clinic)).json.error.faults[0]).toMatchObject({
      path: "entries.0.kind",
      got: "clinic",
    });
    expect((await send({ kind: "advised" })).json.error.faults[0].path).toBe("entries.0.kind");
  });

  it.each([
    [{}],
    [{ entries: [] }],
    [{ entries: "x" }],
    [{ entries: null }],
    [{ entries: Array.from({ length: 201 }, () => ({})) }],
    [[]],
    [null],
    [7],
    [{ entries: [person], extra: 1 }],
  ])("in a body like %j are refused", async (body) => {
    expect((await bench.post("/api/entries", body)).status).toBe(422);
  });
});

describe("today", () => {
  it("lists whom to see, with the reasons, after the fits were refreshed", async () => {
    await send(person, stoma, draft("measured", round(32), { ...about, at: day("2026-11-10") }));
    const { json } = await bench.get("/api/today");
    expect(json).toMatchObject({
      on: "2026-11-25",
      others: 0,
      lines: [{ person: { personId }, reasons: [{ code: "measureDue" }] }],
    });
  });

  it("holds nobody who died", async () => {
    await send(person, stoma, draft("event", { what: "died" }, { personId, at: day("2026-11-20") }));
    expect((await bench.get("/api/today")).json).toMatchObject({ lines: [], others: 0 });
  });
});

describe("the protocol", () => {
  it("shows every value with its source, and who changed it and why", async () => {
    const set = draft(
      "protocolSet",
      { key: "maxGapMm", value: 4 },
      { reason: "our barriers are wide", at: day("2026-11-25") },
    );
    expect((await send(set)).status).toBe(201);
    const { json } = await bench.get("/api/protocol");
    const values = json.groups.flatMap((group: { values: { key: string }[] }) => group.values);
    expect(values.map(({ key }: { key: string }) => key)).toEqual(protocolKeys);
    expect(json.version).toBe(1);
    expect(values.find(({ key }: { key: string }) => key === "maxGapMm")).toMatchObject({
      value: 4,
      default: 3.2,
      unit: "mm",
      certainty: "read in the source",
      changedBy: nurse.name,
      reason: "our barriers are wide",
    });
  });

  it("is not changed without a reason, or past its limits", async () => {
    const set = (value: number, reason?: string) =>
      send(draft("protocolSet", { key: "maxGapMm", value }, { reason }));
    expect((await set(4)).json.error.faults[0].path).toBe("entries.0.reason");
    expect((await set(99, "why not")).json.error.faults[0].path).toBe("entries.0.body.value");
  });
});

describe("the log of changes", () => {
  const rows = [
    "2026-11-02,08:15,barrier,planned",
    "2026-11-05,08:20,barrier,leak past the edge",
    "2026-11-06,25:00,barrier,planned",
  ];
  const log = ["date,time,what,why", ...rows].join("\n");
  const goodLog = ["date,time,what,why", ...rows.slice(0, 2)].join("\n");
  beforeEach(() => send(person, stoma));

  it("is checked without writing anything", async () => {
    const { status, json } = await bench.upload(`${base}/log/check`, log);
    expect(status).toBe(200);
    expect(json).toMatchObject({
      rows: 3,
      good: 2,
      badLines: 1,
      bad: [{ line: 4, column: "time" }],
      delimiter: ",",
    });
    expect(json.first).toHaveLength(2);
    expect(json).not.toHaveProperty("drafts");
    expect((await bench.get("/api/session")).json.counts.entries).toBe(3);
  });

  it("with faults comes in only where its good rows are asked for", async () => {
    const refused = await bench.upload(`${base}/log/import`, log, { accept: "all" });
    expect([refused.status, refused.json.error.code]).toEqual([422, "refused"]);
    const { json } = await bench.upload(`${base}/log/import`, log, { accept: "goodOnly" });
    expect(json).toMatchObject({ imported: 2, duplicates: 0, left: [{ line: 4 }] });
  });

  it("comes in once, however often it is sent", async () => {
    const send = () => bench.upload(`${base}/log/import`, goodLog, { accept: "all" });
    const answers = await Promise.all([send(), send(), send()]);
    const imported = answers.map(({ json }) => json.imported).sort();
    expect(imported).toEqual([0, 0, 2]);
    const story = personStory((await bench.get(`/api/people/${personId}`)).json.entries);
    expect(story?.stomas[0]?.wears).toHaveLength(2);
    expect(story?.stomas[0]?.changes[0]?.source.entry).toMatchObject({ by: nurse, reportedBy: "a log file" });
  });

  it("is written in the columns that are read", async () => {
    await bench.upload(`${base}/log/import`, goodLog, { accept: "all" });
    const csv = await bench.get(`/api/people/${personId}/changes.csv`);
    expect(csv.headers["content-type"]).toBe("text/csv; charset=utf-8");
    expect(csv.text).toContain("2026-11-05,08:20,barrier,leak past the edge");
    const again = await bench.upload(`${base}/log/check`, csv.text);
    expect(again.json).toMatchObject({ good: 2, duplicates: { inRecord: 2 }, badLines: 0 });
  });

  it("asks which stoma where there are two", async () => {
    const second = v4();
    await send(draft("stoma", { type: "urostomy", construction: "conduit" }, { personId, stomaId: second }));
    const url = `/api/people/${personId}/changes.csv`;
    expect((await bench.get(url)).json.error.code).toBe("whichStoma");
    expect((await bench.get(`${url}?stomaId=${second}`)).status).toBe(200);
    expect((await bench.get(`${url}?stomaId=${v4()}`)).json.error.code).toBe("noSuchStoma");
  });

  it("asks how its dates are meant", async () => {
    const unclear = "date,what,why\n03/11/2026,barrier,planned";
    expect((await bench.upload(`${base}/log/check`, unclear)).json).toMatchObject({
      needsDateOrder: true,
      good: 0,
    });
    expect((await bench.upload(`${base}/log/import`, unclear, { accept: "goodOnly" })).status).toBe(422);
    const told = await bench.upload(`${base}/log/import`, unclear, { accept: "all", dateOrder: "dmy" });
    expect(told.json).toMatchObject({ imported: 1 });
  });

  it.each([
    ["another person", `/api/people/${v4()}/stomas/${stomaId}/log/check`, {}, 404],
    ["another stoma", `/api/people/${personId}/stomas/${v4()}/log/check`, {}, 404],
    ["no id", `/api/people/x/stomas/${stomaId}/log/check`, {}, 422],
    ["an unknown order", `${base}/log/check`, { dateOrder: "ydm" }, 422],
    ["an unknown field", `${base}/log/check`, { mood: "fine" }, 422],
    ["no word on bad rows", `${base}/log/import`, {}, 422],
  ] as const)("with %s is refused", async (_what, url, fields, status) => {
    expect((await bench.upload(url, log, fields)).status).toBe(status);
  });

  it.each([
    ["application/json", "{}", "wrongType"],
    ["multipart/form-data", "x", "badUpload"],
    [
      "multipart/form-data; boundary=b",
      '--b\r\nContent-Disposition: form-data; name="file"; filename="a"\r\n\r\nhalf',
      "badUpload",
    ],
    ["multipart/form-data; boundary=b", "--b--\r\n", "badUpload"],
    [
      "multipart/form-data; boundary=b",
      '--b\r\nContent-Disposition: form-data; name="file"\r\n\r\nno file\r\n--b--\r\n',
      "badUpload",
    ],
    [
      "multipart/form-data; boundary=b",
      '--b\r\nContent-Disposition: form-data; name="__proto__"\r\n\r\n1\r\n--b--\r\n',
      "badUpload",
    ],
  ])("as %s %j is refused", async (type, body, code) => {
    const answer = await bench.post(`${base}/log/check`, body, { "content-type": type });
    expect(answer.json.error.code).toBe(code);
    expect(answer.status).toBeLessThan(500);
  });

  it("that is plainly something else is refused in words", async () => {
    const packed = "PK\u0003\u0004 notes.csv";
    for (const what of ["check", "import"]) {
      const { status, json } = await bench.upload(`${base}/log/${what}`, packed, {});
      expect([status, json.error.faults[0].problem]).toEqual([422, "is a packed folder (ZIP)"]);
    }
  });

  it("of more than 25 MB is too large", async () => {
    const answer = await bench.upload(`${base}/log/check`, Buffer.alloc(25 * 1024 * 1024 + 1, "x"));
    expect([answer.status, answer.json.error.code]).toEqual([413, "tooLarge"]);
  });
});

describe("the export", () => {
  it("is the whole record, and can be read back", async () => {
    await send(
      person,
      stoma,
      measured,
      draft("changed", change(), { ...about, at: instant("2026-11-20T08:00:00Z") }),
    );
    const { headers, text } = await bench.get("/api/export.jsonl");
    expect(headers["content-disposition"]).toBe('attachment; filename="record-2026-11-25.jsonl"');
    const elsewhere = await openSqlite(":memory:");
    expect(await importRecord(text.split("\n"), elsewhere)).toMatchObject({ done: true, added: 5, bad: [] });
    expect(await elsewhere.entriesAfter(clinicId, 0, 99)).toEqual(
      await bench.store.entriesAfter(clinicId, 0, 99),
    );
    await elsewhere.close();
  });
});

describe("the frame card", () => {
  it("is a PDF", async () => {
    const { status, headers, bytes } = await bench.get("/api/frame-card.pdf?paper=Letter&x=0.99&y=1.01");
    expect([status, headers["content-type"]]).toEqual([200, "application/pdf"]);
    expect(bytes.subarray(0, 5).toString()).toBe("%PDF-");
  });

  it.each(["paper=A3", "x=0.5", "x=abc", "y=Infinity"])("with %s is refused", async (query) => {
    expect((await bench.get(`/api/frame-card.pdf?${query}`)).status).toBe(422);
  });
});

describe("hostile input", () => {
  const nested = (depth: number) => "[".repeat(depth) + "]".repeat(depth);
  const bodies: [string, string][] = [
    ["nothing", ""],
    ["half of JSON", '{"entries":['],
    ["no JSON", "entries=1"],
    ["deep nesting", `{"entries":[${nested(100_000)}]}`],
    [
      "deep nesting in a body",
      `{"entries":[${JSON.stringify(measured).replace('"body":', `"x":${nested(50_000)},"body":`)}]}`,
    ],
    ["a prototype", '{"__proto__":{"admin":true},"entries":[]}'],
    ["a constructor", '{"constructor":{"prototype":{"x":1}},"entries":[]}'],
    ["a number too large", `{"entries":[${JSON.stringify(measured).replace("32", "1e999")}]}`],
    ["lone surrogates", '{"entries":[{"kind":"\\ud800"}]}'],
    ["NUL characters", '{"entries":[{"id":"\\u0000"}]}'],
    ["a huge array", `{"entries":[${"0,".repeat(100_000)}0]}`],
    [
      "wrong types all through",
      '{"entries":[{"id":[],"kind":{},"at":7,"body":"x","corrects":[],"reason":{}}]}',
    ],
    ["a kind of every object", '{"entries":[{"kind":"hasOwnProperty"}]}'],
  ];

  it.each(bodies)("%s gets an answer in the 400s, never a failure", async (_what, body) => {
    for (const url of ["/api/entries", "/api/clinic", `${base}/cutting-sheet`]) {
      const { status, json } = await bench.post(url, body);
      expect([url, status >= 400 && status < 500, typeof json.error.sentence]).toEqual([url, true, "string"]);
      expect(JSON.stringify(json).length).toBeLessThan(50_000);
    }
  });

  it("larger than an entry can be is too large", async () => {
    const answer = await bench.post("/api/entries", `{"entries":["${"x".repeat(5 * 1024 * 1024)}"]}`);
    expect([answer.status, answer.json.error.code]).toEqual([413, "tooLarge"]);
  });

  it.each([
    "/api/people/%E0%A4%A",
    "/api/%",
    "/api/people/..%2f..%2fetc",
    `/api/people/${"x".repeat(5000)}`,
    "/api/nothing",
    "/api",
    "/api/",
  ])("%s finds nothing and tells nothing", async (url) => {
    const { status, json } = await bench.get(url);
    expect(status).toBeGreaterThanOrEqual(400);
    expect(status).toBeLessThan(500);
    expect(json.error.sentence).not.toMatch(/node_modules|Error|\n/);
  });

  it("in a name is kept as the letters it is", async () => {
    const name = `<script>alert(1)</script>'; drop table entry; -- ${"\u202e"}`;
    await send(draft("person", { name, identifier: "R-9" }, { personId: v7() }));
    const { json } = await bench.get("/api/people?text=drop%20table");
    expect(json.people[0].name).toBe(name);
  });
});
