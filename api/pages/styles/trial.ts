/** Decays, their residuals, budgets, and a trial on one sheet of paper. */
export const TRIAL = `
.mark { stroke: var(--ink); stroke-width: 1; fill: none; }
svg text.mark-name { paint-order: stroke; stroke: var(--paper); stroke-width: 3px; }
.level { stroke-width: 1.5; stroke-dasharray: 1.5 3.5; fill: none; }
.level-total { stroke: var(--total); } .level-natural { stroke: var(--natural); }
`;
