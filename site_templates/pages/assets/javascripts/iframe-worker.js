/* A page opened from a folder (file:) may not start a worker. There, and only there, `new Worker(url)` becomes a
   hidden frame that loads the same script; messages pass both ways. The search script looks for parent.IFrameWorker. */
(function () {
  "use strict";

  /* The text search parts words at hyphens and spaces, which leaves a CAS number three numbers that stand anywhere.
     Pages also hold their codes run together, so a question (message type 2) asks for them like that. */
  function asked(message) {
    if (!message || message.type !== 2 || typeof message.data !== "string") return message;
    var data = message.data
      .replace(/\b(\d{2,7})-(\d\d)-(\d)\b/g, "$1$2$3")
      .replace(/\b([np](?:bk|br|[bgmorvwy])) ?(\d{1,3})(?::(\d))?\b/gi, "$1$2$3");
    return { type: 2, data: data };
  }
  if (location.protocol !== "file:") {
    var post = window.Worker && Worker.prototype.postMessage;
    if (post) Worker.prototype.postMessage = function (message, transfer) { post.call(this, asked(message), transfer || []); };
    return;
  }

  function FrameWorker(url) {
    var worker = new EventTarget();
    var frame = document.createElement("iframe");
    var loaded = new Promise(function (done) { frame.onload = done; });

    function load(source) {
      return new Promise(function (done, failed) {
        var script = frame.contentDocument.createElement("script");
        script.src = new URL(source, location.href).href;
        script.onload = done;
        script.onerror = failed;
        frame.contentDocument.body.appendChild(script);
      });
    }
    var ready = loaded.then(function () {
      var inside = frame.contentWindow;
      inside.postMessage = function (data) {
        worker.dispatchEvent(new MessageEvent("message", { data: data }));
      };
      inside.importScripts = function () {
        return Promise.all(Array.prototype.map.call(arguments, load));
      };
      return load(url);
    });
    worker.postMessage = function (data) {
      ready.then(function () {
        frame.contentWindow.dispatchEvent(new MessageEvent("message", { data: asked(data) }));
      });
    };
    worker.terminate = function () { frame.remove(); };
    frame.hidden = true;
    frame.title = "Search worker";
    frame.srcdoc = "<!doctype html><html lang=en><title>Search worker</title><body></body></html>";
    document.body.appendChild(frame);
    return worker;
  }

  window.IFrameWorker = window.Worker = FrameWorker;
})();
