/** What the tabs of one browser tell each other: they share the cookie, so one session is everybody's. */
export type TabNews = { event: "arrived" } | { event: "left"; accountId: string };

const channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel("roundel");

export function tellTabs(news: TabNews): void {
  channel?.postMessage(news);
}

/** @returns how to stop listening */
export function hearTabs(listener: (news: TabNews) => void): () => void {
  const onMessage = ({ data }: MessageEvent<TabNews>) => listener(data);
  channel?.addEventListener("message", onMessage);
  return () => channel?.removeEventListener("message", onMessage);
}
