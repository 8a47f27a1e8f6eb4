import { Command } from "commander";
import { Ended, Refusal, statuses } from "../ending.ts";
import { bytesOf, streamOf, textOf } from "../input/index.ts";
import { photoCommand } from "../photo/index.ts";
import { writeOut } from "../terminal/index.ts";
import { answer, asJson } from "./answer.ts";
import { answerLines } from "./answerLines.ts";
import { type AnyTopic, allTopics, topicNamed, topicNames } from "./topics.ts";

interface Options {
  lines?: boolean;
  list?: boolean;
  example?: boolean;
  pretty?: boolean;
}

export function computeCommand(): Command {
  return new Command("compute")
    .summary("answer one computation: a JSON document in, one out")
    .description(
      "Reads one JSON document from FILE or standard input and writes the answer to standard output.\n" +
        "Wrong input: exit status 2, one line for each fault on standard error, nothing on standard output.",
    )
    .argument("[topic]", `one of ${topicNames.join(", ")}`)
    .argument("[file]", "the input; standard input when left out or -")
    .option(
      "--lines",
      "JSON Lines in and out; lines with faults are reported with their number, the rest answered",
    )
    .option("--list", "list the topics")
    .option("--example", "print an input that works")
    .option("--pretty", "indent the answer")
    .addHelpText("after", examples)
    .addCommand(photoCommand())
    .action(compute);
}

const examples = `
Examples:
  $ roundel compute --list
  $ roundel compute outline --example | roundel compute outline --pretty
  $ echo '{"outline":[[0,0],[30,0],[30,20],[0,20]]}' | roundel compute outline
  $ roundel compute wear wears.json
  $ roundel compute opening --lines openings.jsonl > answers.jsonl
`;

async function compute(name: string | undefined, file: string | undefined, options: Options): Promise<void> {
  if (options.list) return listTopics();
  if (name === undefined) throw new Refusal(`Which topic? One of ${topicNames.join(", ")}.`);
  const topic = await topicNamed(name);
  if (!topic)
    throw new Refusal(`There is no topic ${JSON.stringify(name)}. Topics: ${topicNames.join(", ")}.`);
  const indent = options.pretty ? 2 : 0;
  if (options.example) return writeOut(`${asJson(topic.example, options.lines ? 0 : 2)}\n`);
  if (options.lines) return computeLines(topic, file);
  return writeOut(`${answer(topic, textOf(await bytesOf(file)), indent)}\n`);
}

async function computeLines(topic: AnyTopic, file: string | undefined): Promise<void> {
  const faulty = await answerLines(topic, await streamOf(file), {
    onAnswer: (json) => writeOut(`${json}\n`),
    onFault: (sentence) => console.error(sentence),
  });
  if (faulty > 0) throw new Ended(statuses.wrongInput);
}

async function listTopics(): Promise<void> {
  const topics = [...(await allTopics()), { name: "photo", summary: photoCommand().summary() }];
  const widest = Math.max(...topics.map(({ name }) => name.length));
  await writeOut(topics.map(({ name, summary }) => `${name.padEnd(widest)}  ${summary}\n`).join(""));
}
