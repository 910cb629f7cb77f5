// The lock's front: the display's pixels, bolt and door; and the room behind.

const WIDTH = 296;
const HEIGHT = 128;
const ROW = 37;
const INK = [24, 24, 22];
const PAPER = [240, 238, 230];

const $ = (id) => document.getElementById(id);

/** Draws the very pixels that the lock drew: a set bit is ink. */
function draw(pixels) {
  const context = $("paper").getContext("2d");
  const image = context.createImageData(WIDTH, HEIGHT);
  const bytes = pixels === null ? null : Uint8Array.from(atob(pixels), (c) => c.charCodeAt(0));
  for (let y = 0; y < HEIGHT; y += 1) {
    for (let x = 0; x < WIDTH; x += 1) {
      const ink = bytes !== null && bytes[y * ROW + (x >> 3)] & (0x80 >> (x & 7));
      image.data.set([...(ink ? INK : PAPER), 255], 4 * (y * WIDTH + x));
    }
  }
  context.putImageData(image, 0, 0);
}

const SOUNDS = { key: "key", accepted: "accepted", refused: "refused", warning: "warning" };
const ALARMS = {
  quiet: "quiet",
  tamper: "TAMPER: open without a release",
  duress: "DURESS: send help, quietly",
};

let drawn;
let made = null;

export function showFront(front) {
  const { screen } = front;
  const pixels = screen?.pixels ?? null;
  if (pixels !== drawn) {
    draw(pixels);
    drawn = pixels;
    const words = screen === null ? "nothing" : [screen.title, ...screen.lines].join(" ");
    $("paper").setAttribute("aria-label", `The lock's display, electronic paper: ${words}`);
    $("words").textContent = words;
  }
  const open = front.bolt === "drawn";
  $("door").dataset.door = front.door;
  $("bolt").dataset.bolt = front.bolt;
  const blocker = front.blocked ? "blocked" : "free to be drawn";
  $("bolt-says").textContent = open ? `Bolt drawn, door ${front.door}.` : `Bolt thrown, ${blocker}.`;
  $("handle").textContent = open ? "Throw the bolt" : "Draw the bolt";
  $("handle").dataset.to = open ? "throw" : "draw";
  $("door-move").textContent = front.door === "open" ? "Close the door" : "Open the door";
  $("door-move").dataset.to = front.door === "open" ? "close" : "open";
  $("door-move").hidden = !open && front.door === "closed";

  if (front.sounds_made !== made) {
    const names = front.sounds.map((name) => SOUNDS[name]);
    $("sound").textContent = made === null || names.length === 0 ? "quiet" : `sound: ${names.at(-1)}`;
    made = front.sounds_made;
  }

  document.body.dataset.power = front.power ? "on" : "off";
  // Somebody in front of the lock is told nothing of the room behind.
  if (front.alarm === undefined) return;
  $("alarm").dataset.level = front.alarm;
  $("alarm-says").textContent = ALARMS[front.alarm];
  toggle("battery", !front.power, "Put the battery back", "Pull the battery");
  toggle("inhibit", front.inhibit, "Unset the intruder alarm", "Set the intruder alarm");
  toggle("switch", front.switch, "Turn the service switch off", "Turn the service switch on");
  if (document.activeElement !== $("supply")) $("supply").value = front.supply;
  $("supply-says").textContent = `${(front.supply / 1000).toFixed(1)} V`;
  $("link-says").textContent = front.link === "" ? "nothing yet" : front.link;
}

function toggle(id, on, says, otherwise) {
  $(id).textContent = on ? says : otherwise;
  $(id).setAttribute("aria-pressed", String(on));
  $(id).dataset.on = String(on);
}
