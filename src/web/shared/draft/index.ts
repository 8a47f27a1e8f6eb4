import {
  createContext,
  useCallback,
  useContext,
  useLayoutEffect,
  useState,
  useSyncExternalStore,
} from "react";
import { v7 as uuidv7 } from "uuid";

/** What is being written and not yet saved. */
export interface Kept<T> {
  value: T;
  /** The id that the entry will have: one for all retries, so that none is saved twice. */
  id: string;
  /** Something was typed since it was last saved or begun. */
  touched: boolean;
  set(next: T | ((now: T) => T)): void;
  /** Drops it, once it is saved or given up. */
  forget(): void;
}

interface Stored<T> {
  value: T;
  id: string;
}

const prefix = "roundel.draft.";
const listeners = new Set<() => void>();

/** Whose drafts these are: an account's id, or nobody's before there is an account. */
const OwnerContext = createContext("nobody");
export const DraftOwner = OwnerContext.Provider;

/**
 * Keeps what is typed under a key through a failed save, leaving the page and loading it again, until `forget`.
 * It lives in this tab of this browser and nowhere else, and only its owner sees it.
 * @param about what it is about, such as `change:${stomaId}`
 */
export function useDraft<T>(about: string, initial: () => T): Kept<T> {
  const key = `${useContext(OwnerContext)}.${about}`;
  const [held, setHeld] = useState(() => ({ key, ...begun(key, initial) }));
  const current = held.key === key ? held : { key, ...begun(key, initial) };
  if (current !== held) setHeld(current);

  const set = useCallback<Kept<T>["set"]>(
    (next) =>
      setHeld((before) => {
        const value = typeof next === "function" ? (next as (now: T) => T)(before.value) : next;
        return { ...before, value, touched: true };
      }),
    [],
  );
  // Before the next paint, so that a page left right after the last key has lost nothing.
  useLayoutEffect(() => {
    if (held.touched) keep(held.key, { value: held.value, id: held.id });
  }, [held]);
  const forget = useCallback(() => {
    drop(key);
    setHeld({ key, value: initial(), id: uuidv7(), touched: false });
  }, [key, initial]);

  return { value: current.value, id: current.id, touched: current.touched, set, forget };
}

function begun<T>(key: string, initial: () => T): Stored<T> & { touched: boolean } {
  const stored = read<T>(key);
  return stored ? { ...stored, touched: true } : { value: initial(), id: uuidv7(), touched: false };
}

function read<T>(key: string): Stored<T> | null {
  try {
    const text = sessionStorage.getItem(prefix + key);
    return text ? (JSON.parse(text) as Stored<T>) : null;
  } catch {
    return null;
  }
}

function keep<T>(key: string, stored: Stored<T>): void {
  try {
    sessionStorage.setItem(prefix + key, JSON.stringify(stored));
  } catch {
    // A full or forbidden store loses only the reload; what is on the page stays.
  }
  tell();
}

function drop(key: string): void {
  sessionStorage.removeItem(prefix + key);
  tell();
}

function tell(): void {
  for (const listener of listeners) listener();
}

function keptKeys(beginning = ""): string[] {
  return Object.keys(sessionStorage).filter((key) => key.startsWith(prefix + beginning));
}

/** Drops everything an account has typed in this tab. */
export function forgetDraftsOf(owner: string): void {
  for (const key of keptKeys(`${owner}.`)) sessionStorage.removeItem(key);
  tell();
}

/** Drops every draft, whoever's, that names one of these ids: of a person, a stoma or an entry. */
export function forgetDraftsAbout(ids: readonly string[]): void {
  for (const key of keptKeys()) {
    const text = key + sessionStorage.getItem(key);
    if (ids.some((id) => text.includes(id))) sessionStorage.removeItem(key);
  }
  tell();
}

/** How many things the owner has typed and not yet saved in this tab. */
export function useKeptCount(): number {
  const owner = useContext(OwnerContext);
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => keptKeys(`${owner}.`).length,
  );
}
