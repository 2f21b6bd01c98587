/** Charts: drawn twice, for a wide and a narrow screen, so that their words are never smaller than the page's. */
export const CHARTS = `
figure { margin: 1rem 0; } figcaption { color: var(--soft); max-width: 44rem; margin: .25rem 0; }
svg { display: block; max-width: 100%; height: auto; }
svg text { fill: var(--soft); font: 13px Georgia, "Iowan Old Style", "Times New Roman", serif; }
svg text.name { fill: var(--ink); }
.narrow { display: none; }
@media (max-width: 47.9rem) { .wide { display: none; } .narrow { display: block; } }
@media print { .wide { display: block; } .narrow, figure details { display: none; } }
.axis { stroke: var(--line); fill: none; } .axis-line { stroke: var(--edge); fill: none; }
.interval { stroke: var(--total); stroke-width: 6; } .centre { stroke: var(--ink); stroke-width: 1.5; }
.runs-off { stroke: var(--total); stroke-width: 2; fill: none; }
.reading { stroke: var(--soft); stroke-opacity: .6; stroke-width: 3.4; stroke-linecap: round; fill: none; }
.left-out { stroke: var(--bad); stroke-width: 1.3; fill: none; }
.fit { stroke-width: 2.5; fill: none; } .fit-total { stroke: var(--total); } .fit-natural { stroke: var(--natural); stroke-dasharray: 9 3; }
.span-total { fill: var(--total); fill-opacity: .1; } .span-natural { fill: var(--natural); fill-opacity: .12; }
.span-background { fill: var(--ground); fill-opacity: .16; }
figure details table { width: auto; } figure details { margin: .25rem 0; }
`;
