import { Link, useNavigate, useSearch } from "@tanstack/react-router";
import { useEffect, useState } from "react";
import { usePeople } from "../../shared/api/index.ts";
import {
  Button,
  ButtonLink,
  EmptyNote,
  ErrorNote,
  Field,
  LoadingNote,
  Opening,
} from "../../shared/ui/index.ts";
import { counted } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";
import { moveAlong } from "./moveAlong.ts";
import { PersonLine } from "./PersonLine.tsx";
import "./people.css";

const settleMs = 150;

/** Everybody, found by name or record number. */
export function PeoplePage() {
  const { find = "" } = useSearch({ from: "/people" });
  const [typed, setTyped] = useState(find);
  const text = useSettled(typed.trim(), settleMs);
  const navigate = useNavigate();
  const { may } = useBench();
  useEffect(() => {
    if (text !== find) navigate({ to: "/people", search: text ? { find: text } : {}, replace: true });
  }, [text, find, navigate]);

  return (
    <>
      <Opening title="People" beside={may.write && <ButtonLink to="/people/new">Add a person</ButtonLink>} />
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the arrow keys lead from the field into the list */}
      <div className="people" onKeyDown={moveAlong}>
        <search>
          <Field
            label="Find by name or record number"
            type="search"
            autoComplete="off"
            spellCheck={false}
            value={typed}
            onChange={setTyped}
            data-finder
          />
        </search>
        <Found text={text} />
      </div>
    </>
  );
}

function Found({ text }: { text: string }) {
  const query = usePeople(text);
  const people = query.data?.pages.flatMap((page) => page.people) ?? [];
  if (query.isError && people.length === 0)
    return <ErrorNote error={query.error} retry={() => query.refetch()} />;
  if (!query.data) return <LoadingNote what="people" />;
  return (
    <>
      <p className="people-count" role="status">
        {countWords(people.length, query.hasNextPage, text)}
      </p>
      {people.length === 0 ? (
        <Nobody text={text} />
      ) : (
        <ul className="people-list">
          {people.map((person) => (
            <PersonLine key={person.personId} person={person} />
          ))}
        </ul>
      )}
      {query.hasNextPage && (
        <p className="formend">
          <Button onClick={() => query.fetchNextPage()} aria-disabled={query.isFetchingNextPage}>
            {query.isFetchingNextPage ? "Fetching…" : "Show more"}
          </Button>
        </p>
      )}
      <ErrorNote error={query.isFetchNextPageError && query.error} retry={() => query.fetchNextPage()} />
    </>
  );
}

function countWords(shown: number, more: boolean, text: string): string {
  const found = text ? ` with “${text}”` : "";
  if (more) return `First ${counted(shown, "person", "people")}${found}, by name`;
  return `${counted(shown, "person", "people")}${found}`;
}

function Nobody({ text }: { text: string }) {
  const { may } = useBench();
  if (!text) {
    return (
      <EmptyNote>
        Nobody is on record yet. {may.write && <Link to="/people/new">Add the first person</Link>}
      </EmptyNote>
    );
  }
  return (
    <EmptyNote>
      Nobody’s name or record number holds “{text}”. Try fewer letters
      {may.write && (
        <>
          , or <Link to="/people/new">add a person</Link>
        </>
      )}
      .
    </EmptyNote>
  );
}

/** A value once it has stood still for a while. */
function useSettled(value: string, afterMs: number): string {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), afterMs);
    return () => clearTimeout(timer);
  }, [value, afterMs]);
  return settled;
}
