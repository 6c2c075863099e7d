/** A number of bytes for people, in the decimal units of IEC 80000-13: `0 kB`, `under 1 kB`, `640 kB`, `1.2 MB`, `34 MB`. */
export const sizeWords = (bytes: number): string => {
  const kilo = bytes / 1000;
  if (bytes > 0 && kilo < 1) return "under 1 kB";
  // What would round to 1000 kB is said in MB.
  if (Math.round(kilo) < 1000) return `${Math.round(kilo)} kB`;
  const mega = kilo / 1000;
  return `${mega < 9.95 ? mega.toFixed(1) : Math.round(mega)} MB`;
};
