import Ellipsis from "lucide-react/icons/ellipsis";
import { type ReactNode, useState } from "react";
import { useAuthor, useChairs } from "#client/store/hooks.ts";
import type { ControlSize } from "#client/ui/button.tsx";
import { later } from "#client/ui/later.tsx";
import { Menu, type MenuItem } from "#client/ui/menu.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Card } from "#shared/board/card.ts";
import { removeDetail } from "#shared/commands/remove-record.ts";
import { placeDetail } from "#shared/commands/revise-detail.ts";
import { changesOf, changeWords } from "#shared/selectors/detail-changes.ts";
import type { DetailLine as DetailReading } from "#shared/selectors/part-view.ts";
import { questionsOn } from "#shared/selectors/questions.ts";
import { DetailLine } from "../detail-line.tsx";
import { DrawnFold } from "../drawn-view.tsx";
import { practiceLink } from "../links.ts";
import { QuestionList } from "../questions/question-list.tsx";
import { RulingNote } from "../ruling/ruling-note.tsx";
import { useAct } from "../use-act.ts";
import { useHref } from "../use-href.ts";
import { useInPlace } from "../use-in-place.ts";
import { DetailHistory, useChangeWords } from "./detail-history.tsx";
import { SettleWording } from "./settle-wording.tsx";

const EditDetail = later(async () => (await import("./edit-detail.tsx")).EditDetail, "min-h-96");
const RulingForm = later(async () => (await import("../ruling/ruling-form.tsx")).RulingForm, "min-h-48");
const AskQuestion = later(
  async () => (await import("../questions/ask-question.tsx")).AskQuestion,
  "min-h-48",
);

export interface DetailRowProps {
  readonly line: DetailReading;
  readonly song: SongFile;
  readonly control?: "first" | "none";
  readonly size?: ControlSize;
  readonly title?: ReactNode;
  readonly pointedOut?: boolean;
  /** Somebody else took it off while this list was open. */
  readonly gone?: boolean;
}

/** What can be done with a detail besides marking it. */
const useChanges = (card: Card, edit: () => void): readonly MenuItem[] => {
  const act = useAct();
  const chairs = useChairs();
  const { role } = useAuthor();
  if (role === "guest") return [];
  const places = chairs.map(({ id, name }) => ({
    label: `Place on ${name}`,
    onSelect: () => {
      act(placeDetail, { card: card.id, chairs: [id] }, `Placed on ${name}: ${card.text}`);
    },
  }));
  const remove = () => {
    act(removeDetail, { id: card.id }, `Taken off the board: ${card.text}`);
  };
  return [
    { label: "Change", onSelect: edit },
    ...(card.chairs.length > 0 ? [] : places),
    { label: "Take off the board", danger: true, onSelect: remove },
  ];
};

/** A detail that can be marked, changed, placed, settled and taken off where it stands. */
export const DetailRow = ({ line, song, control = "first", gone = false, ...rest }: DetailRowProps) => {
  const words = useChangeWords();
  const author = useAuthor();
  const href = useHref();
  const { root, editing, edit, done } = useInPlace<HTMLLIElement>('[aria-haspopup="menu"]');
  const [history, setHistory] = useState(false);
  const [form, setForm] = useState<"rule" | "ask" | null>(null);
  const chairs = useChairs();
  const { card } = line;
  const changes = useChanges(card, edit);
  if (gone)
    return (
      <li className="expression border-b border-line py-4 text-quiet">Taken off the board: {card.text}</li>
    );
  if (editing)
    return (
      <li ref={root} data-card={card.id}>
        <EditDetail card={card} song={song} onDone={done} />
      </li>
    );

  const look = history ? "Hide who said what" : "Who said what, and when";
  const mine = control === "first" ? line.standings[0]?.member : undefined;
  const practise =
    author.role !== "guest" && mine && mine === author.member
      ? [{ label: "Practise at home", href: href(practiceLink(card.song, card.id)) }]
      : [];
  const last = mine ? changesOf(song, card.id).find(({ member }) => member === mine) : undefined;
  const says =
    author.role === "guest"
      ? []
      : [
          { label: "Rule on this", onSelect: () => setForm("rule") },
          { label: "Ask about this", onSelect: () => setForm("ask") },
        ];
  const holder = chairs.find(({ id }) => id === card.chairs[0])?.holder ?? null;
  const menu = (
    <Menu
      label={`More about: ${card.text}`}
      trigger={<Ellipsis aria-hidden="true" size={20} strokeWidth={1.75} />}
      items={[{ label: look, onSelect: () => setHistory(!history) }, ...practise, ...says, ...changes]}
      className="justify-center text-quiet hover:text-ink no-print"
    />
  );
  return (
    <li ref={root} data-card={card.id}>
      <DetailLine
        line={line}
        song={song}
        control={control}
        {...rest}
        note={last ? changeWords(last, words) : undefined}
        trail={menu}
      >
        <DrawnFold card={card} song={song} />
        <SettleWording card={card} onWrite={edit} />
        <RulingNote card={card} song={song} />
        {form === "rule" ? (
          <RulingForm song={card.song} card={card.id} on={card.text} onDone={() => setForm(null)} />
        ) : null}
        {form === "ask" ? (
          <AskQuestion song={card.song} card={card.id} first={holder} onAsked={() => setForm(null)} />
        ) : null}
        <QuestionList questions={questionsOn(song, card.id)} label={`Questions about: ${card.text}`} />
        {history ? <DetailHistory card={card} song={song} /> : null}
      </DetailLine>
    </li>
  );
};
