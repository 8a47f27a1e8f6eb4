import type { FastifyBaseLogger } from "fastify";
import { refreshFits } from "../record/projection/index.ts";
import type { RecordStore } from "../record/store/index.ts";
import type { ClinicStory } from "../record/story/index.ts";
import type { Clinic } from "./clinic.ts";

/** A list waits this long for fits that are stale, then shows what it has. */
const waitMs = 150;

/** Refreshes fits: a few while somebody waits, the rest when nobody does. */
export class FitsInBackground {
  private readonly store: RecordStore;
  private readonly clinic: Clinic;
  private readonly log: FastifyBaseLogger;
  private readonly closing = new AbortController();
  private running: Promise<void> | null = null;

  constructor(store: RecordStore, clinic: Clinic, log: FastifyBaseLogger) {
    this.store = store;
    this.clinic = clinic;
    this.log = log;
  }

  /** Refreshes what it can in a moment and leaves the rest to the background. A fit that fails holds up no list. */
  async freshen(clinic: ClinicStory): Promise<void> {
    if (this.running) return;
    const { left } = await this.refresh(clinic, AbortSignal.timeout(waitMs));
    if (left) this.start();
  }

  /** Ends the work between two fits. */
  async close(): Promise<void> {
    this.closing.abort();
    await this.running;
  }

  private start(): void {
    if (this.running || this.closing.signal.aborted) return;
    this.running = this.rest().finally(() => {
      this.running = null;
    });
  }

  private async rest(): Promise<void> {
    const clinic = await this.clinic.storyIfAny();
    if (clinic) await this.refresh(clinic, this.closing.signal);
  }

  private async refresh(clinic: ClinicStory, signal: AbortSignal): Promise<{ left: boolean }> {
    try {
      return await refreshFits(this.store, clinic, { signal });
    } catch (error) {
      this.log.error(
        { error: error instanceof Error ? error.name : typeof error },
        "a fit could not be made",
      );
      return { left: false };
    }
  }
}
