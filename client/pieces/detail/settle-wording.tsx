import { useAuthor, useBand, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import type { Card, TextVersion } from "#shared/board/card.ts";
import { isDisputed } from "#shared/board/card.ts";
import { rewordDetail } from "#shared/commands/reword-detail.ts";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { useAct } from "../use-act.ts";
import { useNames } from "../use-names.ts";

const FIELD_WORDS = { text: "What to do", right: "Right when" } as const;

const Version = ({ version, onKeep }: { readonly version: TextVersion; readonly onKeep: () => void }) => {
  const names = useNames();
  const { timeZone } = useBand();
  const [{ today }] = useViewpoint();
  const { writer, role } = useAuthor();
  const who = version.by === "" ? "somebody" : names.member(version.by);
  const device = version.writer === writer ? "on this device" : "on another device";
  return (
    <li className="flex flex-wrap items-center justify-between gap-2 border-b border-line py-2">
      <span className="min-w-0">
        {version.text === "" ? <span className="expression">nothing</span> : version.text}
        <span className="caption block">
          {who}, {dayWords(dayOf(version.at, timeZone), { today })}, {device}
        </span>
      </span>
      {role === "guest" ? null : <Button onClick={onKeep}>Keep this one</Button>}
    </li>
  );
};

/** Two wordings that nobody has chosen between: both, with who and when; choosing one or writing a third settles it. */
export const SettleWording = ({ card, onWrite }: { readonly card: Card; readonly onWrite: () => void }) => {
  const act = useAct();
  const { role } = useAuthor();
  const fields = (["text", "right"] as const).filter((field) => isDisputed(card.versions[field]));
  if (fields.length === 0) return null;
  return (
    <section aria-label="Wordings to settle" className="my-2 border-l-2 border-accent pl-3">
      <p>Two people wrote this without seeing each other's version.</p>
      {fields.map((field) => (
        <div key={field}>
          <p className="caption mt-2">{FIELD_WORDS[field]}</p>
          <ul>
            {card.versions[field].map((version) => (
              <Version
                key={version.writer}
                version={version}
                onKeep={() =>
                  act(rewordDetail, { card: card.id, field, text: version.text }, `Settled: ${version.text}`)
                }
              />
            ))}
          </ul>
        </div>
      ))}
      {role === "guest" ? null : (
        <Button tone="quiet" onClick={onWrite}>
          Write it differently
        </Button>
      )}
    </section>
  );
};
