import type { ReactNode } from "react";
import type { PersonStory, StomaStory } from "../../../../record/story/index.ts";
import { ButtonLink, FootnoteMark, Sentence } from "../../../shared/ui/index.ts";
import { whenWords } from "../../../shared/words/index.ts";
import { useBench } from "../../frame/index.tsx";
import { protocolWords } from "../../reasons/index.ts";
import type { Outlook } from "../outlook.ts";
import { mattersOf } from "./mattersOf.ts";
import { nextSteps } from "./nextSteps.ts";
import "./matters.css";

/** What decides, as sentences; what to do next; and the way to the fitting. */
export function Matters({
  story,
  stoma,
  outlook,
  letters,
  children,
}: {
  story: PersonStory;
  stoma: StomaStory;
  outlook: Outlook;
  letters: ReadonlyMap<string, string>;
  children?: ReactNode;
}) {
  const { today, protocol } = useBench();
  const reading = stoma.readings.at(-1);
  const steps = nextSteps(stoma, outlook, protocol, today);
  return (
    <aside className="matters" aria-label="What matters">
      {children}
      <ol className="matters-list">
        {mattersOf(stoma, outlook, today).map(({ code, text, range, protocolValues }) => (
          <li key={code}>
            <Sentence text={text} />
            <span className="note">
              {[range, protocolValues.length > 0 && protocolWords(protocolValues)].filter(Boolean).join(". ")}
            </span>
          </li>
        ))}
        {reading && (
          <li className="matters-last">
            <Sentence text={lastReadingWords(reading)} />
            {letters.has(reading.entryId) && <FootnoteMark letter={letters.get(reading.entryId)!} />}
            <span className="note">
              {capital(reading.method)}, {reading.source.entry.by.name},{" "}
              {whenWords(reading.source.entry.at, today)}
            </span>
          </li>
        )}
      </ol>
      <div className="matters-next">
        {steps.length > 0 && (
          <>
            <h2>Next</h2>
            <ol>
              {steps.map((step) => (
                <li className="matters-step" key={step}>
                  {step}
                </li>
              ))}
            </ol>
          </>
        )}
        {stoma.standing !== "ended" && (
          <ButtonLink
            first
            to="/people/$personId/stomas/$stomaId/fitting"
            params={{ personId: story.personId, stomaId: stoma.stomaId }}
          >
            Open the fitting
          </ButtonLink>
        )}
      </div>
    </aside>
  );
}

function lastReadingWords({ longestMm, narrowestMm, heightMm }: StomaStory["readings"][number]): string {
  const across =
    longestMm === narrowestMm
      ? `${longestMm.toFixed(1)} mm`
      : `${longestMm.toFixed(1)} by ${narrowestMm.toFixed(1)} mm`;
  return `Last measured ${across} across${heightMm === undefined ? "" : `, ${heightMm} mm high`}.`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
