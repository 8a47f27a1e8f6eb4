import type { ReactNode } from "react";
import type { BodyOf, Kind } from "../../../record/entry/index.ts";
import { readDecimal } from "../../shared/words/index.ts";

/** Sentences about what cannot be saved as it stands, by field. */
export type Wrong = Readonly<Record<string, string>>;

/** What was typed, as a body, or why it is not one yet. */
export type Read<B> = { body: B; wrong?: undefined } | { body?: undefined; wrong: Wrong };

export interface FieldsProps<F> {
  form: F;
  /** Names of the systems that this stoma has had. */
  systems?: readonly string[];
  put: (part: Partial<F>) => void;
  wrong: Wrong;
}

/** How one kind of entry is written and corrected: the text of its fields, and the body made of them. */
export interface KindForm<K extends Kind, F> {
  blank: () => F;
  /** The fields as they would have been typed, for a correction. */
  fill: (body: BodyOf<K>, zone: string) => F;
  /** @param zone where the clinic is: wall-clock times typed in the form are meant there */
  read: (form: F, zone: string) => Read<BodyOf<K>>;
  Fields: (props: FieldsProps<F>) => ReactNode;
}

/** Gathers what is wrong while the fields are read one by one. */
export function reading() {
  const wrong: Record<string, string> = {};
  return {
    text(value: string): string | undefined {
      return value.trim() || undefined;
    },
    needed(field: string, value: string, sentence: string): string {
      if (!value.trim()) wrong[field] = sentence;
      return value.trim();
    },
    chosen<V extends string>(field: string, value: V | "", sentence: string): V {
      if (value === "") wrong[field] = sentence;
      return value as V;
    },
    number(field: string, value: string): number | undefined {
      if (!value.trim()) return undefined;
      const number = readDecimal(value);
      if (number === null) wrong[field] = "Write a number, such as 31.5.";
      return number ?? undefined;
    },
    neededNumber(field: string, value: string): number {
      if (!value.trim()) wrong[field] = "Write the figure.";
      return this.number(field, value) ?? Number.NaN;
    },
    refuse(field: string, sentence: string): void {
      wrong[field] = sentence;
    },
    done<B>(body: B): Read<B> {
      return Object.keys(wrong).length > 0 ? { wrong } : { body };
    },
  };
}

/** A number as it would have been typed. */
export function typed(value: number | undefined): string {
  return value === undefined ? "" : String(value);
}
