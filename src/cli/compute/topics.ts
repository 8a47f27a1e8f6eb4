import type { Topic } from "../../domain/topic.ts";

/** Input and output types are the topic's own; the command line carries documents. */
// biome-ignore lint/suspicious/noExplicitAny: each topic checks its input by its schema before it runs.
export type AnyTopic = Topic<any, unknown>;

/** Loaded only when asked for, so that one computation does not wait for the others. */
const loaders: Record<string, () => Promise<AnyTopic>> = {
  outline: async () => (await import("../../domain/outline/topic.ts")).outlineTopic,
  opening: async () => (await import("../../domain/opening/topic.ts")).openingTopic,
  exposed: async () => (await import("../../domain/exposed/topic.ts")).exposedTopic,
  skin: async () => (await import("../../domain/skin/topic.ts")).skinTopic,
  siting: async () => (await import("../../domain/siting/topic.ts")).sitingTopic,
  healing: async () => (await import("../../domain/healing/topic.ts")).healingTopic,
  "healing-oval": async () => (await import("../../domain/healing/topic.ts")).healingOfOvalTopic,
  wear: async () => (await import("../../domain/wear/topic.ts")).wearTopic,
  supplies: async () => (await import("../../domain/supplies/topic.ts")).suppliesTopic,
  emptying: async () => (await import("../../domain/emptying/topic.ts")).emptyingTopic,
  plan: async () => (await import("../../domain/emptying/topic.ts")).planTopic,
  fluid: async () => (await import("../../domain/fluid/topic.ts")).fluidTopic,
  rehydration: async () => (await import("../../domain/fluid/topic.ts")).rehydrationTopic,
  "warning-signs": async () => (await import("../../domain/warningSigns/topic.ts")).warningSignsTopic,
  protocol: async () => (await import("../../domain/protocol/topic.ts")).protocolTopic,
};

export const topicNames = Object.keys(loaders);

/** Null for a topic that does not exist. */
export async function topicNamed(name: string): Promise<AnyTopic | null> {
  return Object.hasOwn(loaders, name) ? loaders[name]!() : null;
}

export async function allTopics(): Promise<AnyTopic[]> {
  return Promise.all(Object.values(loaders).map((load) => load()));
}
