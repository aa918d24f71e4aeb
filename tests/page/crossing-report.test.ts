import { describe, expect, it } from "vitest";
import { crossingReport } from "../../src/page/worker/crossing-report.ts";
import { sessionReport } from "../../src/page/worker/session-report.ts";
import { reportFiles } from "../../src/report/files/report-files.ts";
import { NodeSession } from "../browser/node-session.ts";

describe("a report that crosses to the window", () => {
  it.each([undefined, 10])(
    "makes the same files as the whole (smallest count %s)",
    async (smallestCount) => {
      const { session } = new NodeSession();
      await session.sheet.settled();
      const wanted = { version: "0.1.0", today: 20_700, smallestCount };
      const whole = await sessionReport(session, wanted);
      const crossed = structuredClone(crossingReport(whole!));
      expect(await reportFiles(crossed)).toEqual(await reportFiles(whole!));
    },
  );

  it("is not to be had without cases", async () => {
    const { session } = new NodeSession("");
    const wanted = { version: "0.1.0", today: 20_700, smallestCount: undefined };
    expect(await sessionReport(session, wanted)).toBeUndefined();
  });
});
