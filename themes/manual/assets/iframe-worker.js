/* Search from a folder on disk.
 *
 * The theme searches in a Worker, which a browser refuses to start for a page opened from disk. Under file:
 * this puts an object in Worker's place that runs the same script in a hidden frame of the page. Messages go
 * to and fro as they would: copied, and later, never at once. Nothing changes for pages from a server.
 */
(function () {
  "use strict";

  if (location.protocol !== "file:") return;

  const copy = (data) => (typeof structuredClone === "function" ? structuredClone(data) : data);

  class FrameWorker extends EventTarget {
    constructor(address) {
      super();
      this.onmessage = null;
      this.onerror = null;
      this.address = new URL(address, document.baseURI).href;
      this.frame = document.createElement("iframe");
      this.frame.title = "Search";
      this.frame.hidden = true;
      this.inside = new Promise((ready) => {
        this.frame.addEventListener("load", () => ready(this.prepare()), { once: true });
      });
      document.body.append(this.frame);
    }

    /* Give the frame what a worker has, then load the worker's script into it. */
    async prepare() {
      const inside = this.frame.contentWindow;
      inside.postMessage = (data) => {
        const message = copy(data);
        setTimeout(() => this.tell("message", { data: message }));
      };
      let imported = Promise.resolve();
      inside.importScripts = (...addresses) => {
        for (const address of addresses) {
          imported = imported.then(() => this.load(inside, new URL(address, this.address).href));
        }
        return imported;
      };
      try {
        await this.load(inside, this.address);
        await imported;
      } catch (error) {
        this.tell("error", { data: error });
      }
      return inside;
    }

    load(inside, address) {
      return new Promise((done, failed) => {
        const script = inside.document.createElement("script");
        script.onload = () => done();
        script.onerror = () => failed(new Error("cannot load " + address));
        script.src = address;
        inside.document.head.append(script);
      });
    }

    tell(name, about) {
      const event = new MessageEvent(name, about);
      const handler = this["on" + name];
      if (typeof handler === "function") handler.call(this, event);
      this.dispatchEvent(event);
    }

    postMessage(data) {
      const message = copy(data);
      this.inside.then((inside) => {
        inside.dispatchEvent(new inside.MessageEvent("message", { data: message }));
      });
    }

    terminate() {
      this.frame.remove();
    }
  }

  window.Worker = FrameWorker;
})();
