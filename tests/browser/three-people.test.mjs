// The jobs of three people in Chromium.

import { test } from "node:test";
import { atDesk, JOBS } from "./three-people.mjs";

const options = {
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: (process.env.CHROMIUM_FLAGS ?? "--no-sandbox --disable-gpu").split(" "),
};

for (const [name, job] of JOBS) test(name, { timeout: 180_000 }, () => atDesk(options, job));
