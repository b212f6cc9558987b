"use strict";
// Search while typing. Without this script the form is sent by its button and the same page answers.
(() => {
  const form = document.getElementById("search");
  const found = document.getElementById("found");
  const count = document.getElementById("count");
  const AFTER_MS = 120;
  let timer = 0;
  let running = null;

  function address() {
    const asked = new URLSearchParams();
    for (const [name, value] of new FormData(form)) if (value.trim()) asked.append(name, value);
    const words = asked.toString();
    return location.pathname + (words ? `?${words}` : "");
  }

  async function ask() {
    running?.abort();
    running = new AbortController();
    const to = address();
    try {
      const answer = await fetch(to, { headers: { "X-Part": "found" }, signal: running.signal });
      if (!answer.ok || answer.redirected) throw new Error("no list");
      found.innerHTML = await answer.text();
      count.textContent = found.querySelector("[data-said]")?.textContent.trim() ?? "";
      history.replaceState(null, "", to);
    } catch (error) {
      if (error.name !== "AbortError") count.textContent = "The list could not be fetched. Press Find to try again.";
    }
  }

  form.addEventListener("input", (event) => {
    clearTimeout(timer);
    timer = setTimeout(ask, event.target.name === "q" ? AFTER_MS : 0);
  });
})();
