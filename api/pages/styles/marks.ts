/**
 * What is drawn inside charts, by class. Kept as properties, so that a picture which stands alone can carry them on its elements:
 * a style block in it would not pass the pages' content security policy. Later ones go over earlier ones.
 */
export const MARKS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  name: { fill: "var(--ink)" },
  "mark-name": { "paint-order": "stroke", stroke: "var(--paper)", "stroke-width": "3px" },
  "span-name": { "paint-order": "stroke", stroke: "var(--paper)", "stroke-width": "3px" },
  halo: { "paint-order": "stroke", stroke: "var(--paper)", "stroke-width": "3px", "stroke-linejoin": "round" },
  axis: { stroke: "var(--line)", fill: "none" },
  "axis-line": { stroke: "var(--edge)", fill: "none" },
  "axis-words": {},
  reading: {
    stroke: "var(--soft)",
    "stroke-opacity": ".6",
    "stroke-width": "3.4",
    "stroke-linecap": "round",
    fill: "none",
  },
  "left-out": { stroke: "var(--bad)", "stroke-width": "1.3", fill: "none" },
  fit: { "stroke-width": "2.5", fill: "none" },
  "fit-total": { stroke: "var(--total)" },
  "fit-natural": { stroke: "var(--natural)", "stroke-dasharray": "9 3" },
  "span-total": { fill: "var(--total)", "fill-opacity": ".1" },
  "span-natural": { fill: "var(--natural)", "fill-opacity": ".12" },
  "span-background": { fill: "var(--ground)", "fill-opacity": ".16" },
  mark: { stroke: "var(--ink)", "stroke-width": "1", fill: "none" },
  level: { "stroke-width": "1.5", "stroke-dasharray": "1.5 3.5", fill: "none" },
  "level-total": { stroke: "var(--total)" },
  "level-natural": { stroke: "var(--natural)" },
  room: { fill: "var(--total)" },
  "room-line": { stroke: "var(--total)", "stroke-width": "1.5", fill: "none" },
  pooled: { fill: "var(--ink)" },
  "pooled-line": { stroke: "var(--soft)", "stroke-dasharray": "2 4", fill: "none" },
  prediction: { stroke: "var(--natural)", "stroke-width": "2.5", fill: "none" },
};

/** The same as rules of the stylesheet. */
export const MARK_RULES = Object.entries(MARKS)
  .map(([name, properties]) => {
    const rules = Object.entries(properties).map(([property, value]) => `${property}: ${value};`);
    return rules.length === 0 ? "" : `svg .${name} { ${rules.join(" ")} }\n`;
  })
  .join("");
