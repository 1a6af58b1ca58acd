// Theme, keys, the clock and the state of the connection: what needs no answer of the server.
(() => {
  "use strict";
  const root = document.documentElement;
  const kept = (name) => { try { return localStorage.getItem(name); } catch { return null; } };
  const keep = (name, value) => { try { localStorage.setItem(name, value); } catch { /* a browser that keeps nothing still shows the page */ } };
  const dark = () => root.dataset.theme ? root.dataset.theme === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
  const theme = kept("sallyport-theme");
  if (theme === "dark" || theme === "light") root.dataset.theme = theme;

  const name = () => document.querySelectorAll("[data-theme-turn]").forEach((button) => { const word = dark() ? "Day" : "Night"; if (button.textContent !== word) button.textContent = word; });
  const clock = () => document.querySelectorAll("[data-utc]").forEach((place) => { const now = new Date().toISOString().slice(11, 16) + " UTC"; if (place.textContent !== now) place.textContent = now; });
  const single = () => kept("sallyport-keys") !== "off";
  const refresh = () => { name(); clock(); };
  addEventListener("DOMContentLoaded", () => {
    refresh();
    setInterval(refresh, 1000);
    document.querySelectorAll("[data-keys-single]").forEach((box) => { box.checked = single(); });
    const lost = document.getElementById("components-reconnect-modal");
    // The program was started anew: what this page stood on is gone, and all it showed is in the files. Only what was typed and not saved is nowhere else.
    const anew = () => { if (document.querySelector("[data-unsaved]")) lost.classList.add("unsaved"); else location.reload(); };
    lost?.addEventListener("components-reconnect-state-changed", (event) => { if (event.detail?.state === "rejected") anew(); });
    if (lost) new MutationObserver(() => {
      if (lost.classList.contains("unsaved")) return;
      if (lost.classList.contains("components-reconnect-rejected")) anew();
      if (lost.classList.contains("components-reconnect-failed")) setTimeout(() => fetch("/health").then((answer) => { if (answer.ok) anew(); }).catch(() => {}), 2000);
    }).observe(lost, { attributes: true, attributeFilter: ["class"] });
  });

  addEventListener("click", (event) => {
    const at = event.target instanceof Element ? event.target : null;
    if (at?.closest("[data-theme-turn]")) { root.dataset.theme = dark() ? "light" : "dark"; keep("sallyport-theme", root.dataset.theme); name(); }
    else if (at?.closest("[data-keys-open]")) document.getElementById("keys")?.showModal();
    else if (at?.closest("[data-load-again]")) location.reload();
    else { const to = at?.closest("[data-goto]"); if (to) document.getElementById(to.dataset.goto)?.focus(); }
  });
  addEventListener("change", (event) => { if (event.target instanceof HTMLInputElement && event.target.matches("[data-keys-single]")) keep("sallyport-keys", event.target.checked ? "on" : "off"); });
  addEventListener("keydown", (event) => {
    if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey || event.key.length !== 1 || !single()) return;
    const at = event.target;
    if (at instanceof Element && at.closest("input:not([type=checkbox]), textarea, select, [contenteditable], dialog[open]")) return;
    const found = document.querySelector(`[data-key="${CSS.escape(event.key)}"]`);
    if (found instanceof HTMLElement) { event.preventDefault(); found.click(); }
  });
})();
