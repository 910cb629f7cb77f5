// How fast the page is: node speed.mjs. Numbers for docs/performance.md; nothing
// is gated on them.

import { ask, browse, open, serve } from "./lock.mjs";

const lock = await serve();
const browser = await browse();
try {
  // From the key to the changed picture, as the page itself sees both.
  const page = await open(browser, lock.address);
  const times = await page.evaluate(async () => {
    const paper = document.getElementById("paper").getContext("2d");
    const taken = [];
    const put = paper.putImageData.bind(paper);
    let changed = () => {};
    paper.putImageData = (...all) => {
      put(...all);
      changed();
    };
    for (let n = 0; n < 100; n += 1) {
      const key = document.querySelector(n % 2 === 0 ? '[data-key="7"]' : '[data-key="back"]');
      const picture = new Promise((resolve) => (changed = resolve));
      const from = performance.now();
      key.click();
      await picture;
      taken.push(performance.now() - from);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    return taken.sort((a, b) => a - b);
  });
  const at = (share) => times[Math.floor(share * (times.length - 1))].toFixed(1);
  console.log(`key to picture: median ${at(0.5)} ms, 95 of 100 within ${at(0.95)} ms, longest ${at(1)} ms`);

  // Thirty viewers at 60 times: how far behind the lock is what they were sent?
  await ask(lock.address, { do: "run", speed: 60 });
  const viewers = Array.from({ length: 30 }, async () => {
    const answer = await fetch(`${lock.address}events`);
    const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
    const seen = [];
    const end = Date.now() + 10_000;
    let text = "";
    while (Date.now() < end) {
      const { value, done } = await reader.read();
      if (done) break;
      text += value;
      for (let cut = text.indexOf("\n\n"); cut >= 0; cut = text.indexOf("\n\n")) {
        const event = text.slice(0, cut);
        text = text.slice(cut + 2);
        const data = event.match(/^event: clock\ndata: (.*)$/m);
        if (data) seen.push([Date.now(), JSON.parse(data[1]).utc]);
      }
    }
    await reader.cancel();
    return seen;
  });
  const all = await Promise.all(viewers);
  const lines = all.map((seen) => seen.slice(1));
  const rates = lines.map((seen) => seen.length / 10);
  // The lock's own time at each moment: the newest that anybody was sent by then.
  const sent = lines.flat().sort(([a], [b]) => a - b);
  let [newest, worst] = [0, 0];
  for (const [, utc] of sent) {
    newest = Math.max(newest, utc);
    worst = Math.max(worst, newest - utc);
  }
  const passed = Math.max(...lines.map((seen) => seen.at(-1)[1] - seen[0][1]));
  console.log(
    `30 viewers at 60 times for 10 s: ${Math.min(...rates).toFixed(1)} to ${Math.max(...rates).toFixed(1)} ` +
      `states a second each, ${passed} s passed, the last one ${(worst / 60).toFixed(2)} s behind the first`,
  );
} finally {
  await browser.close();
  await lock.stop();
}
