/** Colours of a picture, which stands alone: those of the pages by their names there, by Okabe and Ito (2008). */
export type Theme = Readonly<
  Record<"paper" | "ink" | "soft" | "line" | "edge" | "total" | "natural" | "ground" | "bad", string>
>;

export const THEMES = {
  light: {
    paper: "#fbfaf7",
    ink: "#1d2327",
    soft: "#59646b",
    line: "#d9d6cd",
    edge: "#767d81",
    total: "#0072b2",
    natural: "#a6611a",
    ground: "#007a5a",
    bad: "#9c2f00",
  },
  dark: {
    paper: "#16191b",
    ink: "#e6e3dc",
    soft: "#a4aaab",
    line: "#363c40",
    edge: "#848b8e",
    total: "#56b4e9",
    natural: "#e69f00",
    ground: "#2fc79a",
    bad: "#ff9d73",
  },
} as const satisfies Record<string, Theme>;

export type ThemeName = keyof typeof THEMES;
