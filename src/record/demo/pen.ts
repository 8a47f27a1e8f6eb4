import { v4, v7 } from "uuid";
import type { Author } from "../entry/index.ts";
import {
  addDays,
  type BodyOf,
  type Entry,
  instantAt,
  type Kind,
  kinds,
  type PlainDate,
} from "../entry/index.ts";
import type { Chance } from "./chance.ts";
import type { DaysAgo } from "./scenario.ts";

/** A day counted back from today and the time on the clock there. */
export interface Moment {
  daysAgo: DaysAgo;
  /** Hours since midnight, with their fraction. */
  hour: number;
}

interface About {
  personId?: string;
  stomaId?: string;
  reportedBy?: string;
  corrects?: Entry["corrects"];
  reason?: string;
  /** Written down later than it happened. */
  recorded?: Moment;
}

/** Writes the demo's entries: ids, zone and author are always the same way, so that a scenario says only what happened. */
export class Pen {
  readonly entries: Entry[] = [];
  readonly today: PlainDate;
  readonly zone: string;
  private readonly clinicId: string;
  private readonly author: Author;
  private readonly chance: Chance;

  constructor(
    { today, zone }: { today: PlainDate; zone: string },
    clinic: { clinicId: string; author: Author },
    chance: Chance,
  ) {
    this.today = today;
    this.zone = zone;
    this.clinicId = clinic.clinicId;
    this.author = clinic.author;
    this.chance = chance;
  }

  newId(): string {
    return v4({ random: this.chance.bytes(16) });
  }

  date(daysAgo: DaysAgo): PlainDate {
    return addDays(this.today, -daysAgo);
  }

  instant({ daysAgo, hour }: Moment): string {
    const wholeHour = Math.floor(hour);
    return instantAt(this.date(daysAgo), wholeHour, Math.floor((hour - wholeHour) * 60), this.zone);
  }

  /** @returns the id of the entry */
  write<K extends Kind>(kind: K, when: Moment, body: BodyOf<K>, about: About = {}): string {
    const instant = this.instant(when);
    const recordedAt = about.recorded ? this.instant(about.recorded) : instant;
    const id = v7({ msecs: Date.parse(recordedAt), random: this.chance.bytes(16) });
    const { personId = null, stomaId = null, reportedBy, corrects, reason } = about;
    this.entries.push({
      id,
      clinicId: this.clinicId,
      personId,
      stomaId,
      kind,
      schemaVersion: kinds[kind].version,
      at: { instant, zone: this.zone },
      recordedAt,
      by: this.author,
      ...(reportedBy === undefined ? {} : { reportedBy }),
      ...(corrects === undefined ? {} : { corrects }),
      ...(reason === undefined ? {} : { reason }),
      body,
    } as Entry);
    return id;
  }
}
