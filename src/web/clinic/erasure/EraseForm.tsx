import { useMutation, useQueryClient } from "@tanstack/react-query";
import { useNavigate } from "@tanstack/react-router";
import { useState } from "react";
import { type ErasureGround, erasureGroundKeys, erasureGrounds } from "../../../record/erasure/grounds.ts";
import type { PersonStory } from "../../../record/story/index.ts";
import { ask } from "../../shared/api/index.ts";
import { forgetDraftsAbout } from "../../shared/draft/index.ts";
import { Button, Choice, ErrorNote, Field, Form } from "../../shared/ui/index.ts";

const grounds = erasureGroundKeys.map((value) => ({ value, label: erasureGrounds[value] }));

/** What the bench says went. */
export interface Gone {
  entries: number;
  photos: number;
  accounts: number;
  /** False while another program keeps older pages of the record's file from being emptied. */
  isTraceless: boolean;
}

/** The ground, and the name typed by hand, so that nobody is erased by a slip. */
export function EraseForm({ story, onErased }: { story: PersonStory; onErased: (gone: Gone) => void }) {
  const [ground, setGround] = useState<ErasureGround | "">("");
  const [typedName, setTypedName] = useState("");
  const [tried, setTried] = useState(false);
  const navigate = useNavigate();
  const erase = useErase(story);
  const isSame = folded(typedName) === folded(story.details.name);

  const send = () => {
    setTried(true);
    if (ground && isSame) erase.mutate({ ground, typedName: typedName.trim() }, { onSuccess: onErased });
  };
  return (
    <Form label="Erase" onSend={send}>
      <div className="erase-form">
        <Choice
          stacked
          label="On which ground"
          value={ground}
          onChange={setGround}
          choices={grounds}
          error={
            tried && !ground ? "Choose the ground. Whether it holds is for the clinic to judge." : undefined
          }
        />
        <Field
          label="Type the name of the person"
          autoComplete="off"
          spellCheck={false}
          value={typedName}
          onChange={setTypedName}
          error={tried && !isSame ? `Type “${story.details.name}”.` : undefined}
        />
        <ErrorNote error={erase.error} />
        <p className="formend">
          <Button type="submit" first busy={erase.isPending && "Erasing…"}>
            Erase {story.details.name} for good
          </Button>
          <Button onClick={() => navigate({ to: "/people/$personId", params: { personId: story.personId } })}>
            Keep them
          </Button>
        </p>
      </div>
    </Form>
  );
}

/** Erases at the bench, then whatever this browser still holds. */
function useErase(story: PersonStory) {
  const queries = useQueryClient();
  const { personId } = story;
  return useMutation<Gone, Error, { ground: ErasureGround; typedName: string }>({
    mutationFn: (body) => ask(`/people/${personId}/erase`, { method: "POST", body }),
    onSuccess: () => {
      forgetDraftsAbout(idsOf(story));
      queries.removeQueries({ queryKey: ["person", personId] });
      // Refetched where it is shown: lists in which the person stood.
      return queries.invalidateQueries({ predicate: ({ queryKey }) => queryKey[0] !== "person" });
    },
  });
}

/** What a draft may be kept under: the person, a stoma, an entry. */
function idsOf({ personId, stomas, history }: PersonStory): string[] {
  return [personId, ...stomas.map(({ stomaId }) => stomaId), ...history.map(({ first }) => first.id)];
}

function folded(name: string): string {
  return name.normalize("NFC").trim().replace(/\s+/g, " ").toLocaleLowerCase("und");
}
