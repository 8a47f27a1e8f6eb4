import { useState } from "react";
import { type ProtocolPageData, type ProtocolValue, useProtocol } from "../../shared/api/index.ts";
import { Button, Loaded, Opening } from "../../shared/ui/index.ts";
import { nearDay, numberWord } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";
import { SetValueDialog } from "./SetValueDialog.tsx";
import { shownValue } from "./shownValue.ts";
import "./protocol.css";

const groupWords: Record<string, string> = {
  measuring: "Measuring",
  fit: "Opening and bare skin",
  healing: "Healing curve",
  wear: "Wear and changes",
  siting: "Siting before surgery",
};

/** Every threshold the bench compares with: where it comes from and who set it. */
export function ProtocolPage() {
  const protocol = useProtocol();
  return (
    <>
      <Opening
        title="Protocol"
        lead="Every value that a sentence on this bench may rest on. The defaults come with their source; what you change keeps your name and your reason, and advice already given keeps the value it was given under."
      />
      <Loaded query={protocol} what="the protocol">
        {(data) => <Groups data={data} />}
      </Loaded>
    </>
  );
}

function Groups({ data }: { data: ProtocolPageData }) {
  const { may } = useBench();
  const [setting, setSetting] = useState<ProtocolValue | null>(null);
  const changed = data.groups.flatMap(({ values }) => values).filter(isChanged).length;
  return (
    <>
      <p className="protocol-count">
        {changed === 0
          ? "All values stand at their defaults."
          : `${changed === 1 ? "One value differs" : `${numberWord(changed)} values differ`} from the default.`}
        {!may.lead && " The lead of the service sets them."}
      </p>
      {data.groups.map(({ name, values }) => (
        <section className="protocol-group" key={name}>
          <h2>{groupWords[name] ?? name}</h2>
          <ul>
            {values.map((value) => (
              <ValueLine key={value.key} value={value} onSet={() => setSetting(value)} />
            ))}
          </ul>
        </section>
      ))}
      {setting && <SetValueDialog value={setting} onClose={() => setSetting(null)} />}
    </>
  );
}

function isChanged(value: ProtocolValue): boolean {
  return value.value !== value.default;
}

function ValueLine({ value, onSet }: { value: ProtocolValue; onSet: () => void }) {
  const { may } = useBench();
  return (
    <li className="protocol-value">
      <p className="label">{value.label}</p>
      <p className="figure">
        <b>{shownValue(value.value, value.unit)}</b>
        {isChanged(value) && <span className="note">default {shownValue(value.default, value.unit)}</span>}
      </p>
      <div className="from note">
        <p>
          {value.source} ({value.certainty}).
        </p>
        <ChangedBy value={value} />
      </div>
      {may.lead && (
        <Button onClick={onSet} aria-label={`Change: ${value.label}`}>
          Change
        </Button>
      )}
    </li>
  );
}

function ChangedBy({ value }: { value: ProtocolValue }) {
  const { today } = useBench();
  if (!value.changedBy || !value.changedAt) return null;
  return (
    <p>
      <b>Set by {value.changedBy}</b>, {nearDay(value.changedAt.slice(0, 10), today)}
      {value.reason && `: “${value.reason}”`}
    </p>
  );
}
