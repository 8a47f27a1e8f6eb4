import type { FastifyBaseLogger } from "fastify";
import { refreshFits } from "../record/projection/index.ts";
import type { RecordStore } from "../record/store/index.ts";
import type { ClinicStory } from "../record/story/index.ts";
import type { Clinic } from "./clinic.ts";

/** A list waits this long for fits that are stale, then shows what it has. */
const waitMs = 150;

/** Refreshes fits: a few while somebody waits, the rest when nobody does; one clinic's never holds up another's. */
export class FitsInBackground {
  private readonly store: RecordStore;
  private readonly clinic: Clinic;
  private readonly log: FastifyBaseLogger;
  private readonly closing = new AbortController();
  private readonly running = new Map<string, Promise<void>>();

  constructor(store: RecordStore, clinic: Clinic, log: FastifyBaseLogger) {
    this.store = store;
    this.clinic = clinic;
    this.log = log;
  }

  /** Refreshes what it can in a moment and leaves the rest to the background. A fit that fails holds up no list. */
  async freshen(clinic: ClinicStory): Promise<void> {
    if (this.running.has(clinic.clinicId)) return;
    const { left } = await this.refresh(clinic, AbortSignal.timeout(waitMs));
    if (left) this.start(clinic.clinicId);
  }

  /** Ends the work between two fits. */
  async close(): Promise<void> {
    this.closing.abort();
    await Promise.all(this.running.values());
  }

  private start(clinicId: string): void {
    if (this.running.has(clinicId) || this.closing.signal.aborted) return;
    const rest = this.rest(clinicId).finally(() => this.running.delete(clinicId));
    this.running.set(clinicId, rest);
  }

  private async rest(clinicId: string): Promise<void> {
    const clinic = await this.clinic.storyOf(clinicId);
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
