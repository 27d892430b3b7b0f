/* Served over HTTPS, the book is kept on the device whole, and says so; from disk nothing is registered.
   On a machine's own server it asks for ?offline=yes, so that whoever edits entries never reads an old page. */
(function () {
  "use strict";
  const here = document.currentScript.src, foot = document.querySelector(".foot");
  const own_machine = ["localhost", "127.0.0.1"].includes(location.hostname) && new URLSearchParams(location.search).get("offline") === "yes";
  if (!(location.protocol === "https:" || own_machine) || !("serviceWorker" in navigator) || !foot) return;
  const said = document.createElement("p");
  said.className = "edition";
  said.setAttribute("role", "status");

  function ask(worker) {
    return new Promise((answer) => {
      const channel = new MessageChannel();
      channel.port1.onmessage = (event) => answer(event.data);
      worker.postMessage("edition", [channel.port2]);
    });
  }
  function say(...words) {
    said.replaceChildren(...words);
    if (!said.isConnected) foot.append(said);
  }
  async function kept(worker) {
    const { checked, version } = await ask(worker);
    say("Kept on this device for use without a network: edition " + version + " of " + checked + ".");
  }
  async function newer(worker) {
    const { checked, version } = await ask(worker), load = document.createElement("button");
    load.type = "button";
    load.textContent = "Load it";
    load.addEventListener("click", () => worker.postMessage("take over"));
    say("A newer edition is there: " + version + " of " + checked + ". ", load);
  }
  function watch(worker, registration) {
    worker.addEventListener("statechange", () => {
      if (worker.state === "installed" && registration.active) newer(worker);
      if (worker.state === "activated") kept(worker);
      if (worker.state === "redundant" && !registration.active) say("This device has no room to keep the book: it needs the network.");
    });
  }
  async function start() {
    const registration = await navigator.serviceWorker.register(new URL("../../sw.js", here));
    let changed = false;
    const first = !navigator.serviceWorker.controller;
    navigator.serviceWorker.addEventListener("controllerchange", () => { if (!first && !changed) { changed = true; location.reload(); } });
    if (registration.waiting) newer(registration.waiting);
    else if (registration.active) kept(registration.active);
    if (registration.installing) watch(registration.installing, registration);
    registration.addEventListener("updatefound", () => watch(registration.installing, registration));
    registration.update().catch(() => { /* no network: what is kept stays */ });
  }
  start().catch(() => { /* refused by the browser: the pages work from the network alone */ });
})();
