/* Reloads a page of the preview when there is something new to show, and keeps the place on it.
 *
 * It asks often and briefly instead of holding a connection open: a browser allows few of those to one
 * server, and a maker may have many pages open. A page is reloaded once for each new thing shown, never
 * twice for the same, whatever the answer is.
 */
(() => {
  "use strict";

  const EVERY_MS = 400;
  const LOST_AFTER = 3; // answers that did not come
  const HEARD_MS = 50; // until the browser has taken in that a page is put back by us
  const DONE_MS = 1000; // until the browser has left the chance to put a page back itself
  const PLACE = "wiring-manual preview: place";
  const DONE = "wiring-manual preview: reloaded for";
  const own = document.currentScript;
  let missed = 0;
  let timer = 0;

  /* The tab's own small store; a browser may refuse it, and then the page begins at its top. */
  const keep = (name, value) => {
    try {
      sessionStorage.setItem(name, value);
    } catch {}
  };
  const kept = (name) => {
    try {
      return sessionStorage.getItem(name);
    } catch {
      return null;
    }
  };

  /* The place is the last thing with an id above the middle of the window, and how far down it stood. */
  const place = () => {
    let found = null;
    for (const element of document.querySelectorAll("article [id]")) {
      const { top, height } = element.getBoundingClientRect();
      if (height > 0 && top < innerHeight / 2) found = { id: element.id, top };
    }
    return { ...found, y: scrollY, x: scrollX };
  };

  const putBack = () => {
    const { id, top, x, y } = JSON.parse(kept(PLACE));
    const element = id && y > 0 ? document.getElementById(id) : null;
    if (element) scrollBy({ top: element.getBoundingClientRect().top - top, behavior: "instant" });
    else scrollTo({ left: x, top: y, behavior: "instant" });
  };

  const reload = (number) => {
    const once = `${number} ${location.pathname}`;
    if (kept(DONE) === once) return;
    keep(DONE, once);
    keep(PLACE, JSON.stringify(place()));
    history.scrollRestoration = "manual";
    setTimeout(() => location.reload(), HEARD_MS);
  };

  const tellEnded = (ended) => {
    let note = document.querySelector(".preview-ended");
    if (!ended) {
      note?.remove();
    } else if (!note) {
      note = document.createElement("p");
      note.className = "preview-ended";
      note.setAttribute("role", "status");
      note.textContent = own.dataset.ended;
      document.body.append(note);
    }
  };

  const ask = async () => {
    clearTimeout(timer);
    if (document.hidden) return;
    try {
      const answer = await fetch("/~preview/number", { cache: "no-store" });
      if (!answer.ok) throw new Error(answer.status);
      const number = await answer.text();
      missed = 0;
      if (number !== own.dataset.shown) reload(number);
    } catch {
      missed += 1;
    }
    tellEnded(missed >= LOST_AFTER);
    clearTimeout(timer);
    timer = setTimeout(ask, missed >= LOST_AFTER ? 5 * EVERY_MS : EVERY_MS);
  };

  /* The browser puts a page back at its own time, after this script: it must not where this script does. */
  if (kept(PLACE)) {
    history.scrollRestoration = "manual";
    addEventListener("load", () => {
      putBack();
      keep(PLACE, "");
      setTimeout(() => {
        history.scrollRestoration = "auto";
      }, DONE_MS);
    });
  }
  addEventListener("pageshow", (event) => {
    if (event.persisted) keep(DONE, ""); // an old page that was put aside whole, and comes back
    ask();
  });
  document.addEventListener("visibilitychange", ask);
})();
