// WCAG 2.2 AA, as far as a program can tell: axe-core's rules, target sizes
// (2.5.8), reflow at 320 px (1.4.10), focus that is seen (2.4.7), no motion where
// none is wanted.

import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { after, before, test } from "node:test";
import { answered, browse, open, serve, until } from "./lock.mjs";

const AXE = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

let lock;
let browser;
before(async () => {
  lock = await serve();
  browser = await browse();
});
after(async () => {
  await browser?.close();
  await lock?.stop();
});

/** The page's own policy lets no foreign script in; the test puts it beside. */
async function violations(page) {
  const session = await page.context().newCDPSession(page);
  await session.send("Page.setBypassCSP", { enabled: true });
  await page.reload();
  await page.waitForLoadState();
  await page.waitForTimeout(400);
  await page.addScriptTag({ path: AXE });
  const { violations: found, passes } = await page.evaluate(
    (tags) => globalThis.axe.run(document, { runOnly: { type: "tag", values: tags } }), TAGS,
  );
  assert.ok(passes.length > 15, "axe looked at something");
  return found.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(" ")).join("; ")}`);
}

for (const colorScheme of ["light", "dark"]) {
  for (const width of [390, 1280, 1920]) {
    test(`axe, ${colorScheme}, ${width} px`, async () => {
      const page = await open(browser, lock.address, { colorScheme, viewport: { width, height: 900 } });
      assert.deepEqual(await violations(page), []);
      // A lesson under way, off its path, with an alarm.
      await page.selectOption("#lesson-pick", "07-duress");
      await answered(page, () => page.click("#lesson-start"));
      for (let step = 0; step < 3; step += 1) await answered(page, () => page.click("#lesson-step"));
      await answered(page, () => page.click("#inhibit"));
      await until(() => page.isVisible("#lesson-left"), "off the path");
      assert.deepEqual(await violations(page), []);
    });
  }
}

test("axe, a handout and the page of a viewer", async () => {
  const page = await open(browser, lock.address);
  await page.goto(`${lock.address}handout/07-duress`);
  assert.deepEqual(await violations(page), []);
  const hall = await serve("0.0.0.0:0");
  try {
    const viewer = await open(browser, `http://127.0.0.1:${hall.port}/`);
    assert.ok(await viewer.isVisible("#join"));
    assert.deepEqual(await violations(viewer), []);
  } finally {
    await hall.stop();
  }
});

test("axe finds what is wrong", async () => {
  const page = await open(browser, lock.address);
  await page.route("**/", async (route) => {
    const answer = await route.fetch();
    const body = (await answer.text()).replace('<label class="pick">Lock ', "").replace("lang=\"en\"", "");
    await route.fulfill({ response: answer, body });
  });
  const found = (await violations(page)).join("\n");
  assert.match(found, /html-has-lang/);
  assert.match(found, /select-name/);
});

test("targets are 24 px or more", async () => {
  for (const width of [390, 1280]) {
    const page = await open(browser, lock.address, { viewport: { width, height: 900 } });
    const small = await page.$$eval("button, select, input, a.plain", (all) =>
      all
        .filter((element) => element.checkVisibility())
        .map((element) => ({ id: element.id || element.textContent, box: element.getBoundingClientRect() }))
        .filter(({ box }) => box.width < 24 || box.height < 24)
        .map(({ id }) => id),
    );
    assert.deepEqual(small, []);
  }
});

test("nothing is cut off at 320 px", async () => {
  const page = await open(browser, lock.address, { viewport: { width: 320, height: 800 } });
  await page.selectOption("#lesson-pick", "05-delay-and-claim");
  await answered(page, () => page.click("#lesson-start"));
  await answered(page, () => page.click("#lesson-step"));
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  assert.ok(wide <= 320, `the page is ${wide} px wide`);
});

test("the focus is seen, and nothing moves for who wants no motion", async () => {
  const page = await open(browser, lock.address, { reducedMotion: "reduce" });
  await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "To the keypad");
  await page.keyboard.press("Tab");
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
  assert.equal(outline, "solid");
  const moves = await page.$eval("#bolt", (bolt) => getComputedStyle(bolt).transitionDuration);
  assert.equal(moves, "0s");
});

test("a handout is one page of paper", async () => {
  const page = await open(browser, lock.address);
  const ids = await page.$$eval("#lesson-pick option", (options) => options.map((o) => o.value));
  for (const id of ids) {
    await page.goto(`${lock.address}handout/${id}`);
    const pdf = (await page.pdf({ format: "A4", preferCSSPageSize: true })).toString("latin1");
    const pages = pdf.match(/\/Type\s*\/Page[^s]/g)?.length;
    assert.equal(pages, 1, `${id} has ${pages} pages`);
    assert.ok((await page.$$("img")).length >= 3, `${id} shows screens`);
  }
});
