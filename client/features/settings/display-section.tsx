import { Choice } from "#client/ui/choice.tsx";
import { useDisplay } from "#client/ui/display.ts";
import { SectionHeading } from "#client/ui/page-heading.tsx";

/** How it looks here. Kept on this device. */
export const DisplaySection = () => {
  const { theme, size, setTheme, setSize } = useDisplay();
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
          onChange={setTheme}
        />
        <Choice
          label="Text"
          value={size}
          options={[
            { value: "plain", label: "As usual" },
            { value: "stand", label: "Large, for a music stand" },
          ]}
          onChange={setSize}
        />
      </div>
    </section>
  );
};
