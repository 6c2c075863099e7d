import type { ReactNode } from "react";
import { historyLink, listenLink } from "#client/pieces/links.ts";
import { AskQuestion } from "#client/pieces/questions/ask-question.tsx";
import { QuestionList } from "#client/pieces/questions/question-list.tsx";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useSongView } from "#client/store/hooks.ts";
import { useStand } from "#client/store/presence-hooks.ts";
import type { SongView } from "#client/store/song-view.ts";
import { Button } from "#client/ui/button.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { usePrinting } from "#client/ui/use-printing.ts";
import type { SongFile } from "#shared/board/board.ts";
import type { Question } from "#shared/board/question.ts";
import { isOpen } from "#shared/board/ruling.ts";
import { questionsAboutSong, questionsWord } from "#shared/selectors/questions.ts";
import { barsOf } from "#shared/selectors/song-entries.ts";
import { CastList } from "./cast-list.tsx";
import { ExportFold } from "./export/export-fold.tsx";
import { FormEditor } from "./form-editor.tsx";
import { FormStrip } from "./form-strip.tsx";
import { GridsFold } from "./grids/grids-fold.tsx";
import { KeyFitFold } from "./key-fit/key-fit-fold.tsx";
import { NightFold } from "./night/night-fold.tsx";
import { RulingList } from "./ruling-list.tsx";
import { SongDetails } from "./song-details.tsx";
import { SongEntries } from "./song-entries.tsx";
import { SongFold } from "./song-fold.tsx";
import { SongGone } from "./song-gone.tsx";
import { SongHead } from "./song-head.tsx";
import { SongIdentity } from "./song-identity.tsx";
import { SongPaper } from "./song-paper.tsx";
import { TakeList } from "./take-list.tsx";
import { TempoFold } from "./tempo/tempo-fold.tsx";
import { TexturePaper, TexturesFold } from "./textures/textures-fold.tsx";

export interface SongScreenProps {
  readonly song: string;
  /** The take to open the log at. */
  readonly take?: string | undefined;
  /** A sheet about one part or the score, shown over the song. */
  readonly children?: ReactNode;
}

const counted = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

/** One song whole: what everybody plays by, its form, its cast, its details and its log. */
export const SongScreen = ({ song, take, children }: SongScreenProps) => {
  const view = useSongView(song);
  const printing = usePrinting();
  useStand("song", song);
  if (view === null) return <SongGone song={song} />;
  return (
    <article key={song} className="print-page">
      {printing ? <SongPaper view={view} /> : null}
      <TexturePaper view={view} />
      <div className="no-print">
        <SongHead view={view} />
        <FormStrip file={view.file} />
        <div className="mt-2 grid gap-x-12 laptop:grid-cols-2 laptop:grid-rows-[auto_1fr]">
          <WhatWePlayBy view={view} />
          <WhatWeWatch view={view} take={take} />
          <WhoAndWhy view={view} />
        </div>
      </div>
      {children}
    </article>
  );
};

/** How many details, and how many questions wait among them: on a phone they are folded away. */
const detailsNote = (file: SongFile): string => {
  const waits = (question: Question): boolean => isOpen(question, file);
  const open = file.questions.filter(waits).length - questionsAboutSong(file).filter(waits).length;
  return open === 0 ? String(file.cards.length) : `${file.cards.length}, ${questionsWord(open)} open`;
};

const WhatWePlayBy = ({ view }: { readonly view: SongView }) => (
  <div className="min-w-0">
    <SongFold title="Played by" startOpen>
      <SongEntries file={view.file} />
    </SongFold>
    <SongFold
      title="Form"
      note={view.file.sections.length === 0 ? "not written yet" : counted(barsOf(view.file), "bar", "bars")}
    >
      <FormEditor file={view.file} />
    </SongFold>
    <TexturesFold view={view} />
  </div>
);

const WhatWeWatch = ({ view, take }: { readonly view: SongView; readonly take: string | undefined }) => {
  const { role } = useAuthor();
  const href = useHref();
  const questions = questionsAboutSong(view.file);
  return (
    <div className="min-w-0 laptop:col-start-2 laptop:row-span-2 laptop:row-start-1">
      <SongFold title="Details" note={detailsNote(view.file)}>
        {role === "guest" ? null : (
          <TextLink standing className="no-print" href={href(listenLink(view.file.song.id))}>
            Listen and spot
          </TextLink>
        )}
        <SongDetails view={view} />
      </SongFold>
      <GridsFold file={view.file} />
      <TempoFold file={view.file} />
      <SongFold
        title="Questions"
        note={questions.length === 0 ? "none" : counted(questions.length, "question", "questions")}
        startOpen={questions.some((question) => isOpen(question, view.file))}
      >
        <QuestionList questions={questions} label="Questions about the song" />
        {role === "guest" ? null : <AskQuestion song={view.file.song.id} />}
      </SongFold>
      <SongFold
        title="Log"
        note={counted(view.file.takes.length, "take", "takes")}
        startOpen={take !== undefined}
      >
        <TakeList file={view.file} take={take} />
      </SongFold>
    </div>
  );
};

const WhoAndWhy = ({ view }: { readonly view: SongView }) => {
  const { role } = useAuthor();
  const href = useHref();
  const { song, rulings } = view.file;
  return (
    <div className="min-w-0">
      <SongFold title="Who plays">
        <CastList view={view} />
      </SongFold>
      <KeyFitFold view={view} />
      <SongFold title="Rulings" note={String(rulings.length)}>
        <RulingList file={view.file} />
      </SongFold>
      <div className="no-print">
        {role === "guest" ? null : <NightFold song={song} />}
        {role === "guest" ? null : (
          <SongFold title="Title and style">
            <SongIdentity key={`${song.title}/${song.style}`} song={song} />
          </SongFold>
        )}
        <ExportFold file={view.file} />
        <div className="mt-6 flex flex-wrap items-center gap-x-6 gap-y-3">
          <Button onClick={() => window.print()}>Print this song</Button>
          {role === "leader" ? (
            <TextLink standing href={href(historyLink(song.id))}>
              History of this song
            </TextLink>
          ) : null}
        </div>
      </div>
    </div>
  );
};
