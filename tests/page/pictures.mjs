// Draws the pictures of docs/teaching.md: node pictures.mjs. Look at them.

import { ROOT, answered, browse, open, serve, until } from "./lock.mjs";

const lock = await serve();
const browser = await browse();
try {
  const step = async (page, id, steps) => {
    await page.selectOption("#lesson-pick", id);
    await answered(page, () => page.click("#lesson-start"));
    for (let n = 0; n < steps; n += 1) await answered(page, () => page.click("#lesson-step"));
    await until(async () => (await page.$$("#lesson-steps > .done")).length === steps, "the step");
  };
  const wide = await open(browser, lock.address, { colorScheme: "light" });
  await step(wide, "05-delay-and-claim", 3);
  await wide.mouse.move(0, 0);
  await wide.screenshot({ path: `${ROOT}docs/page-1280.png`, fullPage: true });
  await wide.locator("#paper").screenshot({ path: `${ROOT}docs/page-display.png` });
  const narrow = await open(browser, lock.address, {
    colorScheme: "dark", viewport: { width: 390, height: 844 },
  });
  await step(narrow, "07-duress", 3);
  await narrow.screenshot({ path: `${ROOT}docs/page-390.png`, fullPage: true });
  await narrow.goto(`${lock.address}handout/07-duress`);
  await narrow.setViewportSize({ width: 794, height: 1123 });
  await narrow.screenshot({ path: `${ROOT}docs/handout.png` });
} finally {
  await browser.close();
  await lock.stop();
}
