"use strict";
// The drawings follow the heel while it slides. Without this script the form is sent by its button.
(() => {
  const form = document.getElementById("heel");
  const number = document.getElementById("heel-mm");
  const slide = document.getElementById("heel-slide");
  const drawn = document.getElementById("drawn");
  const said = document.getElementById("drawn-said");
  const AFTER_MS = 70;
  const SAY_AFTER_MS = 600;
  let timer = 0;
  let saying = 0;
  let running = null;

  async function draw() {
    running?.abort();
    running = new AbortController();
    const to = `${location.pathname}?${new URLSearchParams(new FormData(form))}`;
    drawn.setAttribute("aria-busy", "true");
    try {
      const answer = await fetch(to, { headers: { "X-Part": "drawn" }, signal: running.signal });
      if (!answer.ok || answer.redirected) throw new Error("no drawing");
      drawn.innerHTML = await answer.text();
      const words = drawn.querySelector("[data-said]")?.textContent.trim() ?? "";
      said.className = "unseen";
      clearTimeout(saying);
      saying = setTimeout(() => { said.textContent = words; }, SAY_AFTER_MS);
      history.replaceState(null, "", to);
    } catch (error) {
      if (error.name === "AbortError") return;
      clearTimeout(saying);
      said.textContent = "The drawings could not be fetched. Press Draw to try again.";
      said.className = "stop";
    }
    drawn.removeAttribute("aria-busy");
  }

  function later() {
    clearTimeout(timer);
    timer = setTimeout(draw, AFTER_MS);
  }

  slide.closest("[hidden]").hidden = false;
  slide.value = number.value;
  slide.addEventListener("input", () => {
    number.value = slide.value;
    later();
  });
  number.addEventListener("input", () => {
    if (!number.value || !number.validity.valid) return;
    slide.value = number.value;
    later();
  });
})();
