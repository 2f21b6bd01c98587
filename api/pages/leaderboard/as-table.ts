export { AS_TABLE } from "../as-table.ts";
