import { customType } from "drizzle-orm/sqlite-core";

/** A BLOB column as Uint8Array on both clients (drizzle's own buffer mode would need Node's Buffer in the Worker). */
export const bytes = customType<{ data: Uint8Array; driverData: ArrayBuffer | Uint8Array }>({
  dataType: () => "blob",
  toDriver: (value) => value,
  fromDriver: (value) => new Uint8Array(value),
});
