/** Colours of a picture, which stands alone: those of the pages, by Okabe and Ito (2008). */
export interface Theme {
  readonly paper: string;
  readonly ink: string;
  readonly soft: string;
  readonly line: string;
  readonly total: string;
  readonly bad: string;
}

export const THEMES = {
  light: { paper: "#fbfaf7", ink: "#1d2327", soft: "#59646b", line: "#d9d6cd", total: "#0072b2", bad: "#9c2f00" },
  dark: { paper: "#16191b", ink: "#e6e3dc", soft: "#a4aaab", line: "#363c40", total: "#56b4e9", bad: "#ff9d73" },
} as const satisfies Record<string, Theme>;

export type ThemeName = keyof typeof THEMES;
