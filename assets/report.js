"use strict";
// Plays the start: puts together the pictures of the chosen moment, which were drawn beforehand.
(function () {
  const data = JSON.parse(document.getElementById("data").textContent);
  const names = ["plan", "gap", "time"];
  const last = data.words.length - 1;
  const whole_s = 8; // of playing from end to end
  const find = (id) => document.getElementById(id);
  const wide = window.matchMedia("(min-width: 860px)");
  const still = window.matchMedia("(prefers-reduced-motion: reduce)");

  let now = data.worst;
  let playing = false;
  let untouched = true; // nobody has chosen a moment: the first play shows the whole start
  let timer = 0;

  // A frame is a list of line numbers, stored as edits of the frame before it: again and again how
  // many stay, how many go, how many come, and which.
  function change(before, edits) {
    const after = [];
    let at = 0;
    for (let i = 0; i < edits.length; i += 3 + edits[i + 2]) {
      after.push(...before.slice(at, at + edits[i]));
      at += edits[i] + edits[i + 1];
      after.push(...edits.slice(i + 3, i + 3 + edits[i + 2]));
    }
    return after;
  }

  function unroll(reel) {
    let frame = [];
    return reel.edits.map((edits) => (frame = change(frame, edits)));
  }

  const frames = {};
  function pictureAt(format, picture, moment) {
    const film = data[format];
    frames[format] = frames[format] || film.pictures.map(unroll);
    const lines = film.pictures[picture].lines;
    const svg = frames[format][picture][moment].map((number) => lines[number]).join("\n");
    // Behind the worst moment its outline stays.
    const outlined = names[picture] === "gap" && moment > data.worst;
    return outlined ? svg.replace("</svg>", () => film.outline + "</svg>") : svg;
  }

  function draw() {
    const format = wide.matches ? "wide" : "narrow";
    names.forEach((name, picture) => {
      find("live").querySelector("." + name).innerHTML = pictureAt(format, picture, now);
    });
    const scrub = find("scrub");
    scrub.value = now;
    scrub.setAttribute("aria-valuetext", data.words[now]);
    find("moment").textContent = data.words[now];
    find("hint").textContent = hint();
  }

  function hint() {
    const texts = find("hint").dataset;
    if (now === data.worst) return texts.worst;
    return now > data.worst ? texts.after : "";
  }

  function show(moment) {
    untouched = false;
    now = Math.min(Math.max(moment, 0), last);
    draw();
  }

  function stop() {
    playing = false;
    clearTimeout(timer);
    find("play").textContent = find("play").dataset.play;
  }

  // Who wants no motion is shown one event after the other.
  function next() {
    return still.matches ? data.stations.find((moment) => moment > now) ?? last : now + 1;
  }

  function wait() {
    const speed = Number(find("speed").value);
    const step_ms = still.matches ? 1500 : (whole_s * 1000) / last;
    timer = setTimeout(step, step_ms / speed);
  }

  function step() {
    show(next());
    if (now === data.worst || now === last) stop();
    else wait();
  }

  function play() {
    if (now === last || untouched) show(0);
    playing = true;
    find("play").textContent = find("play").dataset.pause;
    wait();
  }

  function toggle() {
    if (playing) stop();
    else play();
  }

  function go(moment) {
    stop();
    show(moment);
  }

  const keys = {
    ArrowLeft: () => go(now - 1),
    ArrowRight: () => go(now + 1),
    PageUp: () => go(now - 10),
    PageDown: () => go(now + 10),
    Home: () => go(0),
    End: () => go(last),
    w: () => go(data.worst),
    " ": toggle,
  };

  // Keys belong to the player while it holds the focus; a button keeps its own space bar.
  function press(event) {
    const own = event.target.tagName;
    const taken = own === "SELECT" || (own === "BUTTON" && event.key === " ");
    const action = keys[event.key];
    if (!action || taken || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    action();
  }

  document.body.classList.add("playing");
  document.querySelector(".player").hidden = false;
  document.querySelector(".player").addEventListener("keydown", press);
  find("play").addEventListener("click", toggle);
  find("back").addEventListener("click", () => go(now - 1));
  find("on").addEventListener("click", () => go(now + 1));
  find("worst").addEventListener("click", () => go(data.worst));
  find("scrub").addEventListener("input", (event) => go(Number(event.target.value)));
  wide.addEventListener("change", draw);
  draw();
})();
