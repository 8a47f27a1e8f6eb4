import type { PersonStory, StomaStory } from "../../../../record/story/index.ts";
import type { Writing } from "../../routes.tsx";
import type { Recording } from "./RecordDialog.tsx";

/** The dialog that writes something new; null where it needs a stoma and there is none. */
export function recordingOf(
  what: Writing,
  story: PersonStory,
  stoma: StomaStory | undefined,
  newStomaId: string,
): Recording | null {
  const { personId } = story;
  const about = { personId, stomaId: stoma?.stomaId ?? null };
  const draftKey = `${what}:${stoma?.stomaId ?? personId}`;
  switch (what) {
    case "changed":
      return (
        (stoma && {
          kind: "changed",
          title: "Record a change",
          send: "Save the change",
          ...about,
          draftKey,
          asksWhen: true,
          asksWhoTold: true,
          systems: stoma.systems.map(({ entry }) => entry.body.system.name),
        }) ??
        null
      );
    case "skin":
      return stoma ? skinRecording(personId, stoma) : null;
    case "consented":
      return {
        kind: "consented",
        title: "Record what the person says to photographs",
        send: "Save the answer",
        personId,
        stomaId: null,
        draftKey: `consented:${personId}`,
        asksWhen: true,
      };
    case "event":
      return {
        kind: "event",
        title: "Record an event",
        send: "Save the event",
        ...about,
        draftKey,
        asksWhen: true,
        asksWhoTold: true,
      };
    case "noted":
      return {
        kind: "noted",
        title: "Write a note",
        send: "Save the note",
        ...about,
        stomaId: null,
        draftKey: `noted:${personId}`,
        asksWhen: true,
      };
    case "fitted":
      return (
        (stoma && {
          kind: "fitted",
          title: "New pouching system",
          send: "Put it into use",
          ...about,
          draftKey,
          asksWhen: true,
        }) ??
        null
      );
    case "person":
      return {
        kind: "person",
        title: "Change the person’s details",
        send: "Save the details",
        ...about,
        stomaId: null,
        draftKey: `person:${personId}`,
        asksWhen: false,
        from: story.details,
      };
    case "stoma":
      return (
        (stoma && {
          kind: "stoma",
          title: "Change the stoma’s details",
          send: "Save the details",
          ...about,
          draftKey,
          asksWhen: false,
          from: stoma.details,
        }) ??
        null
      );
    case "newStoma":
      return {
        kind: "stoma",
        title: "Add a stoma",
        send: "Add the stoma",
        personId,
        stomaId: newStomaId,
        draftKey: `newStoma:${personId}`,
        asksWhen: false,
      };
    default:
      return null;
  }
}

/** A look at the skin, placed about the base as it was last measured. */
export function skinRecording(
  personId: string,
  stoma: StomaStory,
  about = stoma.readings.at(-1)?.shape,
): Recording {
  return {
    kind: "skin",
    title: "Record the skin",
    send: "Save what is seen",
    personId,
    stomaId: stoma.stomaId,
    draftKey: `skin:${stoma.stomaId}`,
    asksWhen: true,
    asksWhoTold: true,
    from: { findings: [], about },
  };
}
