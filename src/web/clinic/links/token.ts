import { useSyncExternalStore } from "react";

/** Addresses that a one-time link leads to. What it lets in with stands after the `#`, which no server is sent. */
const linkPaths = ["/set-up", "/join", "/recover"];

let token: string | null = null;
const listeners = new Set<() => void>();

export function isLinkPath(pathname: string): boolean {
  return linkPaths.includes(pathname);
}

/** Takes the token out of the address before anything else reads it; it lives in this page's memory alone. */
function takeToken(): void {
  const { pathname, hash } = location;
  if (!isLinkPath(pathname) || hash.length < 2) return;
  token = hash.slice(1);
  history.replaceState(history.state, "", pathname);
  for (const listener of listeners) listener();
}

takeToken();
// A link that is opened in a tab which stands at the same address already loads nothing anew.
addEventListener("hashchange", takeToken);

/** The token of the link that led here; null where there is none, as after loading the page again. */
export function useToken(): string | null {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => token,
  );
}

/** It was used, or is good for nothing. */
export function dropToken(): void {
  token = null;
  for (const listener of listeners) listener();
}
