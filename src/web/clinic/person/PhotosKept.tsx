import { useQuery, useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import { ask } from "../../shared/api/index.ts";
import { Button, Dialog, ErrorNote } from "../../shared/ui/index.ts";
import { fullDay } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";

interface Kept {
  photoId: string;
  stomaId: string | null;
  keptMs: number;
  widthPx: number;
  heightPx: number;
}

const keyOf = (personId: string) => ["photos", personId];

/** Photographs that the person agreed to have kept: small ones in a row, large ones beside the one before. */
export function PhotosKept({ personId, stomaId }: { personId: string; stomaId: string }) {
  const [shown, setShown] = useState<number | null>(null);
  const kept = useQuery({
    queryKey: keyOf(personId),
    queryFn: ({ signal }) => ask<{ photos: Kept[] }>(`/people/${personId}/photos`, { signal }),
  });
  const photos = (kept.data?.photos ?? []).filter((photo) => photo.stomaId === stomaId);
  if (kept.error) return <ErrorNote error={kept.error} retry={() => void kept.refetch()} />;
  if (photos.length === 0) return null;
  return (
    <section className="person-photos">
      <h2>Photographs kept</h2>
      <ul>
        {photos.map((photo, at) => (
          <li key={photo.photoId}>
            <button type="button" onClick={() => setShown(at)}>
              <img
                src={`/api/people/${personId}/photos/${photo.photoId}/small`}
                alt={`Kept ${dayOf(photo)}`}
                loading="lazy"
              />
            </button>
            <span className="note">{dayOf(photo)}</span>
          </li>
        ))}
      </ul>
      {shown !== null && photos[shown] && (
        <Large
          personId={personId}
          photo={photos[shown]}
          before={photos[shown + 1] ?? null}
          onClose={() => setShown(null)}
        />
      )}
    </section>
  );
}

/** Beside the one that was kept before it, where there is one. */
function Large({
  personId,
  photo,
  before,
  onClose,
}: {
  personId: string;
  photo: Kept;
  before: Kept | null;
  onClose: () => void;
}) {
  const { may } = useBench();
  const queries = useQueryClient();
  const [asked, setAsked] = useState(false);
  const [error, setError] = useState<unknown>(null);
  const remove = async () => {
    try {
      await ask(`/people/${personId}/photos/${photo.photoId}`, { method: "DELETE", body: {} });
      await queries.invalidateQueries({ queryKey: keyOf(personId) });
      onClose();
    } catch (problem) {
      setError(problem);
    }
  };
  return (
    <Dialog title={`Photograph kept ${dayOf(photo)}`} onClose={onClose}>
      <div className="person-compared">
        {[photo, ...(before ? [before] : [])].map((one) => (
          <figure key={one.photoId}>
            <img src={`/api/people/${personId}/photos/${one.photoId}`} alt={`Kept ${dayOf(one)}`} />
            <figcaption className="note">{dayOf(one)}</figcaption>
          </figure>
        ))}
      </div>
      <ErrorNote error={error} />
      {may.write && (
        <p className="formend">
          {asked ? (
            <>
              <Button first onClick={() => void remove()}>
                Delete it for good
              </Button>
              <Button onClick={() => setAsked(false)}>Keep it</Button>
            </>
          ) : (
            <Button onClick={() => setAsked(true)}>Delete this photograph</Button>
          )}
        </p>
      )}
    </Dialog>
  );
}

function dayOf({ keptMs }: Kept): string {
  return fullDay(new Date(keptMs).toISOString().slice(0, 10));
}
