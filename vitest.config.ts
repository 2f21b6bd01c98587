import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["test/**/*.test.ts"],
    exclude: ["test/campaigns/**"],
    testTimeout: 20_000,
  },
});
