import { Choice } from "./choice.tsx";
import { useDisplay } from "./display.ts";
import { GalleryControls } from "./gallery-controls.tsx";
import { GalleryPanels } from "./gallery-panels.tsx";
import { GalleryStatus } from "./gallery-status.tsx";
import { PageHeading, SectionHeading } from "./page-heading.tsx";

/** Names of the colour tokens, in the order of the stylesheet. */
const TOKENS = [
  { name: "ground", swatch: "bg-ground" },
  { name: "raised", swatch: "bg-raised" },
  { name: "ink", swatch: "bg-ink" },
  { name: "quiet", swatch: "bg-quiet" },
  { name: "control", swatch: "bg-control" },
  { name: "line", swatch: "bg-line" },
  { name: "accent", swatch: "bg-accent" },
  { name: "slip", swatch: "bg-slip" },
] as const;

const Appearance = () => {
  const { theme, size, setTheme, setSize } = useDisplay();
  return (
    <div className="grid max-w-3xl gap-4 tablet:grid-cols-2">
      <Choice
        label="Theme"
        value={theme}
        onChange={setTheme}
        options={[
          { value: "system", label: "As the device" },
          { value: "dark", label: "Dark" },
          { value: "light", label: "Light" },
        ]}
      />
      <Choice
        label="Text"
        value={size}
        onChange={setSize}
        options={[
          { value: "plain", label: "Plain" },
          { value: "stand", label: "Music stand" },
        ]}
      />
    </div>
  );
};

const Type = () => (
  <div className="flex flex-col gap-2">
    <p className="text-figure font-light tracking-tight">62 figure</p>
    <p className="text-display font-light tracking-tight">Display</p>
    <p className="text-title font-semibold">Title</p>
    <p className="text-room">Room, for arm's length</p>
    <p>
      Base text, and <span className="expression">tacet</span> as an expression mark
    </p>
    <p className="caption">Small and quiet</p>
    <ul className="mt-4 flex flex-wrap gap-4">
      {TOKENS.map(({ name, swatch }) => (
        <li key={name} className="caption flex items-center gap-2">
          <span className={`size-6 border border-control ${swatch}`} />
          {name}
        </li>
      ))}
    </ul>
  </div>
);

/** Every component in all its states on one page: for the tests, and for people who come later. */
export const Gallery = () => (
  <div className="mx-auto max-w-6xl">
    <PageHeading
      title="The kit"
      above="Tightrow"
      aside={<p className="caption">every part, in every state</p>}
    />
    <Appearance />
    <SectionHeading title="Type and colour" />
    <Type />
    <GalleryStatus />
    <GalleryControls />
    <GalleryPanels />
  </div>
);
