import { useNeck } from "#client/pieces/use-neck.ts";
import { Choice } from "#client/ui/choice.tsx";
import { useDisplay } from "#client/ui/display.ts";
import { SectionHeading } from "#client/ui/page-heading.tsx";

/** How it looks here. Kept on this device. */
export const DisplaySection = () => {
  const { theme, size, hand, room, ...set } = useDisplay();
  const { neck, setNeck } = useNeck();
  return (
    <section aria-labelledby="display">
      <SectionHeading title={<span id="display">How it looks on this device</span>} />
      <div className="flex max-w-xl flex-col gap-4">
        <Choice
          label="Light"
          value={theme}
          options={[
            { value: "system", label: "As the device" },
            { value: "dark", label: "Dark" },
            { value: "light", label: "Light" },
          ]}
          onChange={set.setTheme}
        />
        <Choice
          label="Text"
          value={size}
          options={[
            { value: "plain", label: "As usual" },
            { value: "stand", label: "Large, for a music stand" },
          ]}
          onChange={set.setSize}
        />
        <Choice
          label="Light in the room"
          value={room}
          options={[
            { value: "dark", label: "Always dark" },
            { value: "themed", label: "As elsewhere" },
          ]}
          onChange={set.setRoom}
        />
        <Choice
          label="The thumb that taps in the room"
          value={hand}
          options={[
            { value: "right", label: "Right" },
            { value: "left", label: "Left" },
          ]}
          onChange={set.setHand}
        />
        <Choice
          label="Necks and chord shapes are drawn for"
          value={neck}
          options={[
            { value: "right", label: "Right-handed players" },
            { value: "left", label: "Left-handed players" },
          ]}
          onChange={setNeck}
        />
      </div>
    </section>
  );
};
