/** A text to copy, and its button. */
export const QUOTE = `
.copied { margin-block: 0.6rem; }
.copied textarea { width: 100%; box-sizing: border-box; font-size: 0.9rem; resize: vertical; }
.copied button { margin-top: 0.3rem; }
`;
