/** What is said of one cleaner: its settings folded or open, the rooms drawn, the facts beside its figure. */
export const CONFIGURATION = `
.setting { border-top: 1px solid var(--line); } section.setting { border: 0; }
.setting > summary { padding: .6rem 0; } .setting > summary h2 { display: inline; margin: 0; color: var(--ink); }
.setting[open] > summary .in-short { display: none; }
.limits { border-left: 3px solid var(--warn); padding: .1rem .9rem .1rem 1.6rem; }
.facts { max-width: none; } .facts small { color: var(--soft); }
td bdi, th bdi { overflow-wrap: anywhere; }
.actions { display: flex; flex-wrap: wrap; gap: .25rem 1.5rem; } .actions a { display: inline-block; min-height: 24px; padding: .2rem 0; }
.relatives li { margin: .6rem 0; } .relatives .line { color: var(--soft); }
.date { white-space: nowrap; }
`;
