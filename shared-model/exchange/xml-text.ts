/** XML as text. Source: W3C Extensible Markup Language 1.0, Fifth Edition: §2.2 (characters), §2.4 (markup). */

/** What no XML 1.0 document can hold: controls but tab and line ends, halves of a pair, U+FFFE and U+FFFF. */
const UNSAYABLE = /(?![\t\n\r])[\p{Cc}\p{Cs}\ufffe\uffff]/gu;

const ESCAPES: { readonly [sign: string]: string } = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "\r": "&#13;",
};

/** A text as the content of an element or, without line ends and tabs, of an attribute. */
export const xmlText = (text: string): string =>
  text.replace(UNSAYABLE, "").replace(/[&<>"\r]/g, (sign) => ESCAPES[sign] ?? sign);

/** An element: attributes that are not undefined, in the order given, then its content; empty ones close themselves. */
export const element = (
  name: string,
  attributes: { readonly [name: string]: string | number | undefined },
  ...content: readonly string[]
): string => {
  const said = Object.entries(attributes)
    .flatMap(([key, value]) => (value === undefined ? [] : [` ${key}="${xmlText(String(value))}"`]))
    .join("");
  const inside = content.join("");
  return inside === "" ? `<${name}${said}/>` : `<${name}${said}>${inside}</${name}>`;
};

/** An element with a text or number only. */
export const leaf = (name: string, value: string | number): string =>
  element(name, {}, xmlText(String(value)));
