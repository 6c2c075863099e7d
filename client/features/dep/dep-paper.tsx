import type { DepGig, DepSong } from "#shared/protocol/dep-api.ts";
import { depAgreed, depFacts, depForm, depNotes, detailsShown } from "#shared/selectors/dep-view.ts";

/*
 * Read from a music stand, 1.2 m away. Characters should span 20 to 22 minutes of arc and never less than 16
 * (ISO 9241-303, from memory): at that distance capitals of 7 mm and 5.6 mm, which are set in 28 pt and 23 pt where a
 * capital is 0.7 of the size.
 */
const LARGE = "text-[28pt] leading-[1.15]";
const PLAIN = "text-[23pt] leading-[1.15]";

const Page = ({
  song,
  place,
  onlyMusts,
}: {
  readonly song: DepSong;
  readonly place: number;
  readonly onlyMusts: boolean;
}) => (
  <article className="break-after-page last:break-after-auto">
    <p className={`${LARGE} border-b-2 border-ink pb-1 font-bold`}>
      {place} {song.title}
    </p>
    <p className={`${LARGE} pt-1 font-semibold`}>{depFacts(song).join(" · ")}</p>
    {depNotes(song)
      .filter(({ paper }) => paper)
      .map(({ label, text }) => (
        <p key={label} className={PLAIN}>
          {label}: {text}
        </p>
      ))}
    <p className={`${PLAIN} my-1 border-y border-ink py-1`}>{depForm(song)}</p>
    {song.parts.some(({ tacet }) => tacet) ? (
      <p className={`${LARGE} expression`}>
        {song.parts
          .filter(({ tacet }) => tacet)
          .map(({ name }) => `${name}: tacet`)
          .join(", ")}
      </p>
    ) : null}
    <ol>
      {detailsShown(song, onlyMusts).map((detail) => (
        <li key={detail.id} className="break-inside-avoid pt-1">
          <p className={detail.weight === "must" ? `${LARGE} font-bold` : PLAIN}>
            <span className="font-normal">{detail.where}:</span> {detail.text}
          </p>
        </li>
      ))}
    </ol>
  </article>
);

/** The night on paper: one song a page, large enough for a music stand. */
export const DepPaper = ({ gig, onlyMusts }: { readonly gig: DepGig; readonly onlyMusts: boolean }) => (
  <div className="hidden print:block">
    {depAgreed(gig).length === 0 ? null : (
      <article className="break-after-page">
        <p className={`${LARGE} font-bold`}>{gig.name || gig.place}</p>
        {depAgreed(gig).map(([label, said]) => (
          <p key={label} className={PLAIN}>
            {label}: {said}
          </p>
        ))}
      </article>
    )}
    {gig.songs.map((song, i) => (
      <Page key={song.id} song={song} place={i + 1} onlyMusts={onlyMusts} />
    ))}
  </div>
);
