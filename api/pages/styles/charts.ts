/** Charts but for what is drawn inside them: drawn twice, for a wide and a narrow screen, so that their words are never smaller than the page's. */
export const CHARTS = `
figure { margin: 1rem 0; } figcaption { color: var(--soft); max-width: 44rem; margin: .25rem 0; }
svg { display: block; max-width: 100%; height: auto; }
svg text { fill: var(--soft); font: 13px Georgia, "Iowan Old Style", "Times New Roman", serif; }
.narrow { display: none; }
@media (max-width: 47.9rem) { .wide { display: none; } .narrow { display: block; } }
@media print { .wide { display: block; } .narrow, figure details { display: none; } }
.interval { stroke: var(--total); stroke-width: 6; } .centre { stroke: var(--ink); stroke-width: 1.5; }
.runs-off { stroke: var(--total); stroke-width: 2; fill: none; }
figure details table { width: auto; } figure details { margin: .25rem 0; }
`;
