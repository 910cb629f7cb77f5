// The link to the lock: what it says, and whether it still says anything.

/** After so many milliseconds without a word the lock counts as gone. It says
 *  something at least every four seconds. */
const SILENCE = 10_000;

/** Calls `heard(topic, value)` for all that is shown, and `state(word)` when
 *  the link comes or goes. */
export function listen(topics, heard, state) {
  let stream = null;
  let timer = 0;
  const alive = () => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      state("lost");
      open();
    }, SILENCE);
  };
  const open = () => {
    stream?.close();
    stream = new EventSource("/events");
    stream.addEventListener("open", alive);
    stream.addEventListener("beat", alive);
    stream.addEventListener("error", () => {
      state("lost");
      // The browser tries again by itself, unless it was refused.
      if (stream.readyState === EventSource.CLOSED) {
        clearTimeout(timer);
        timer = setTimeout(open, 2_000);
      }
    });
    for (const topic of topics) {
      stream.addEventListener(topic, (event) => {
        alive();
        heard(topic, JSON.parse(event.data));
      });
    }
  };
  open();
  return { again: open };
}

/** Asks for something; the sentence why not, or null. */
export async function ask(path, what) {
  try {
    const answer = await fetch(path, {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify(what),
    });
    if (answer.ok) return null;
    const text = await answer.text();
    try {
      return JSON.parse(text).says;
    } catch {
      return text;
    }
  } catch {
    return "The lock cannot be reached.";
  }
}
