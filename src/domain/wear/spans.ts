import type { Lifetimes } from "./lifetimes.ts";

/** A stretch of days in which the data can place a failure but not say where: (from, to], or one day. */
export interface Place {
  from: number;
  to: number;
}

/** Each wear as the run of places in which it may have failed, alike wears counted together. */
export interface Spans {
  /** Ascending and apart; the last may reach to infinity. */
  places: Place[];
  /** First and last place of each span. */
  first: Int32Array;
  last: Int32Array;
  weight: Float64Array;
  /** 1 where the wear failed, 0 where it was censored. */
  failed: Uint8Array;
}

interface Edge {
  at: number;
  kind: "dayStart" | "end" | "openStart";
  span: number;
}

/** At one day: a span that is that day starts, then spans end, then spans that exclude it start. */
const edgeOrder = { dayStart: 0, end: 1, openStart: 2 } as const;

/**
 * The places are the innermost stretches: a start directly followed by an end, over all wears. Nothing but
 * these can carry mass in the maximum-likelihood estimate. @source Peto 1973; Turnbull 1976
 */
export function spansOf({ table, between }: Lifetimes): Spans {
  const weight: number[] = [];
  const failed: number[] = [];
  const edges: Edge[] = [];
  const add = (from: number, to: number, count: number, hasFailed: boolean) => {
    const span = weight.length;
    weight.push(count);
    failed.push(hasFailed ? 1 : 0);
    edges.push({ at: from, kind: from === to ? "dayStart" : "openStart", span });
    edges.push({ at: to, kind: "end", span });
  };
  table.days.forEach((day, i) => {
    if (table.events[i]! > 0) add(day, day, table.events[i]!, true);
    if (table.censored[i]! > 0) add(day, Number.POSITIVE_INFINITY, table.censored[i]!, false);
  });
  between.byDays.forEach((by, i) => {
    add(between.afterDays[i]!, by, 1, true);
  });
  edges.sort((a, b) => (a.at === b.at ? edgeOrder[a.kind] - edgeOrder[b.kind] : a.at - b.at));

  const places: Place[] = [];
  const first = new Int32Array(weight.length);
  const last = new Int32Array(weight.length);
  let opened: Edge | null = null;
  for (const edge of edges) {
    if (edge.kind === "end") {
      if (opened) places.push({ from: opened.at, to: edge.at });
      opened = null;
      last[edge.span] = places.length - 1;
    } else {
      opened = edge;
      first[edge.span] = places.length;
    }
  }
  return { places, first, last, weight: Float64Array.from(weight), failed: Uint8Array.from(failed) };
}
