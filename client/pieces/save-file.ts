/** Hands a text over as a file: the browser asks where, or puts it among the downloads. */
export const saveFile = (name: string, text: string, type: "text/csv" | "application/json"): void => {
  const address = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // The download has its own hold on the bytes once it has begun.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
};

/** A band's name as part of a file name: letters and digits of any script, the rest as hyphens. */
export const fileName = (band: string, what: string, day: string, ending: string): string => {
  const plain = band
    .normalize("NFC")
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "")
    .toLowerCase();
  return `${[plain, what, day].filter((part) => part !== "").join("-")}.${ending}`;
};
