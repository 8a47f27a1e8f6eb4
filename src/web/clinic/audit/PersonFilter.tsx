import { useState } from "react";
import { usePeople } from "../../shared/api/index.ts";
import { Button, Field } from "../../shared/ui/index.ts";
import { useNamesOf } from "./useAudit.ts";

const mostFound = 5;

/** About whom: found by name, as on the list of people. */
export function PersonFilter({
  personId,
  onChange,
}: {
  personId: string | undefined;
  onChange: (personId: string | undefined) => void;
}) {
  if (personId) return <Chosen personId={personId} onClear={() => onChange(undefined)} />;
  return <Finder onChange={onChange} />;
}

function Chosen({ personId, onClear }: { personId: string; onClear: () => void }) {
  const names = useNamesOf([personId]);
  return (
    <div className="audit-about">
      <p className="small">
        About <b>{names.data?.get(personId) ?? personId}</b>
      </p>
      <Button onClick={onClear}>Show everybody</Button>
    </div>
  );
}

function Finder({ onChange }: { onChange: (personId: string) => void }) {
  const [text, setText] = useState("");
  return (
    <div className="audit-finder">
      <Field
        label="About, by name or record number"
        type="search"
        autoComplete="off"
        value={text}
        onChange={setText}
      />
      {text.trim().length > 1 && <Found text={text.trim()} onChange={onChange} />}
    </div>
  );
}

function Found({ text, onChange }: { text: string; onChange: (personId: string) => void }) {
  const query = usePeople(text);
  const people = query.data?.pages.flatMap((page) => page.people) ?? [];
  if (query.data && people.length === 0) return <p className="small">Nobody’s name holds “{text}”.</p>;
  return (
    <ul aria-label="People found">
      {people.slice(0, mostFound).map(({ personId, name, identifier, birthDate }) => (
        <li key={personId}>
          <button type="button" onClick={() => onChange(personId)}>
            {name} <span>{identifier ?? birthDate}</span>
          </button>
        </li>
      ))}
    </ul>
  );
}
