"""Drive Debian's Chromium through its WebDriver program, with nothing but the standard library.

``with Browser(width=390, dark=True) as browser: browser.open(page)`` opens a page from disk with the network
cut off; what this machine serves on 127.0.0.1 can be reached. Tests that use it carry the mark ``browser``.
"""

from __future__ import annotations

import base64
import json
import subprocess
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Callable
from pathlib import Path
from typing import Any, Self, TypeVar

_Found = TypeVar("_Found")
_DRIVER, _CHROMIUM = "/usr/bin/chromedriver", "/usr/bin/chromium"
_SWITCHES = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
)
_ELEMENT = "element-6066-11e4-a52e-4f735466cecf"  # the key of an element in WebDriver's answers (W3C)
TAB, ENTER, ESCAPE, DOWN, SHIFT = "\ue004", "\ue007", "\ue00c", "\ue015", "\ue008"
"""Keys as WebDriver names them (W3C, keyboard actions)."""
_PATIENCE_S = 20.0
_LACKING = """
const sheets = [...document.querySelectorAll("link[rel=stylesheet]")];
const lacking = {
  "the page": document.readyState !== "complete",
  "the end of loading": !(performance.getEntriesByType("navigation")[0]?.loadEventEnd > 0),
  "the fonts": document.fonts.status !== "loaded",
  "a style sheet": !sheets.every((link) => link.sheet || link.disabled),
  "leaving the page before": Boolean(document.documentElement.dataset.left),
};
return Object.keys(lacking).filter((name) => lacking[name]);
"""
_MIDDLE = """
const element = document.querySelector(arguments[0]);
element.scrollIntoView({block: "center", behavior: "instant"});
const box = element.getBoundingClientRect();
return [box.x + box.width / 2, box.y + box.height / 2];
"""


class Browser:
    """One browser with an empty profile; ``width`` and ``height`` in CSS pixels."""

    def __init__(
        self, width: int = 1280, height: int = 800, *, dark: bool = False, scripts: bool = True
    ) -> None:
        self._size = (width, height)
        self._dark = dark
        self._scripts = scripts

    def __enter__(self) -> Self:
        self._profile = tempfile.TemporaryDirectory(prefix="browser-", ignore_cleanup_errors=True)
        self._log = open(Path(self._profile.name, "driver.log"), "w+b")  # noqa: PTH123
        self._driver = subprocess.Popen([_DRIVER, "--port=0"], stdout=self._log, stderr=subprocess.STDOUT)
        try:
            self._server = f"http://127.0.0.1:{self.wait(self._port)}"
            answer = self._call("POST", "/session", {"capabilities": {"alwaysMatch": self._capabilities()}})
            self._session = f"/session/{answer['sessionId']}"
            self._call("POST", f"{self._session}/url", {"url": "about:blank"})
            self.requests()  # those of the browser's own first page
            if self._dark:
                wish = {"name": "prefers-color-scheme", "value": "dark"}
                self.command("Emulation.setEmulatedMedia", features=[wish])
        except BaseException:
            self._stop()
            raise
        return self

    def __exit__(self, *_: object) -> None:
        try:
            self._call("DELETE", self._session)
        finally:
            self._stop()

    def _stop(self) -> None:
        self._driver.terminate()
        self._driver.wait()
        self._log.close()
        self._profile.cleanup()

    def _port(self) -> str:
        told = Path(self._profile.name, "driver.log").read_text(encoding="utf-8", errors="replace")
        return told.partition("started successfully on port ")[2].partition(".")[0]

    def _capabilities(self) -> dict[str, Any]:
        width, height = self._size
        profile = f"--user-data-dir={Path(self._profile.name, 'profile')}"
        options: dict[str, Any] = {
            "binary": _CHROMIUM,
            "args": [*_SWITCHES, profile],
            "mobileEmulation": {"deviceMetrics": {"width": width, "height": height, "pixelRatio": 1}},
            "perfLoggingPrefs": {"enableNetwork": True},
        }
        if not self._scripts:
            options["prefs"] = {"profile.managed_default_content_settings.javascript": 2}
        return {"goog:chromeOptions": options, "goog:loggingPrefs": {"performance": "ALL"}}

    def _call(self, method: str, path: str, body: dict[str, Any] | None = None) -> Any:
        data = None if body is None else json.dumps(body).encode()
        request = urllib.request.Request(self._server + path, data, method=method)  # noqa: S310
        request.add_header("Content-Type", "application/json")
        try:
            with urllib.request.urlopen(request, timeout=60) as answer:  # noqa: S310
                return json.load(answer)["value"]
        except urllib.error.HTTPError as error:
            raise RuntimeError(json.load(error)["value"]["message"]) from error

    def open(self, page: Path, anchor: str = "") -> None:
        """Open a page from disk and wait until it is whole."""
        self.visit(page.resolve().as_uri() + anchor)

    def visit(self, address: str) -> None:
        """Open a page by its address, on disk or served on this machine, and wait until it is whole."""
        self._call("POST", f"{self._session}/url", {"url": address})
        self.arrive()

    def arrive(self) -> None:
        """Wait until the page is whole: loaded, its fonts there and its style sheets applied."""
        end = time.monotonic() + _PATIENCE_S
        while lacking := self.run(_LACKING):
            if time.monotonic() > end:
                raise TimeoutError(f"the page did not come in time; it lacks {', '.join(lacking)}")
            time.sleep(0.05)

    def follow(self, selector: str) -> None:
        """Click a link that leads to another page and wait until that page is whole."""
        self.run("document.documentElement.dataset.left = 'yes'")
        self.click(selector)
        self.arrive()

    def run(self, script: str, *arguments: Any) -> Any:
        """Run the body of a JavaScript function in the page; gives what it returns, waiting for a promise."""
        return self._call(
            "POST", f"{self._session}/execute/sync", {"script": script, "args": list(arguments)}
        )

    def command(self, name: str, **parameters: Any) -> Any:
        """Send one command of the DevTools protocol."""
        return self._call("POST", f"{self._session}/goog/cdp/execute", {"cmd": name, "params": parameters})

    def _find(self, selector: str) -> str:
        found = {"using": "css selector", "value": selector}
        return f"{self._session}/element/{self._call('POST', f'{self._session}/element', found)[_ELEMENT]}"

    def click(self, selector: str) -> None:
        """Click the middle of the first element that fits; by mouse, since WebDriver's own needs scripts."""
        x, y = self.run(_MIDDLE, selector)
        for kind in ("mousePressed", "mouseReleased"):
            self.command("Input.dispatchMouseEvent", type=kind, x=x, y=y, button="left", clickCount=1)

    def type(self, selector: str, text: str) -> None:
        """Type into the first element that fits a CSS selector."""
        self._call("POST", f"{self._find(selector)}/value", {"text": text})

    def press(self, *keys: str, holding: str = "") -> None:
        """Press keys one after the other, wherever the focus is, while another is held down."""
        steps = [{"type": kind, "value": key} for key in keys for kind in ("keyDown", "keyUp")]
        if holding:
            steps = [{"type": "keyDown", "value": holding}, *steps, {"type": "keyUp", "value": holding}]
        keyboard = {"type": "key", "id": "keyboard", "actions": steps}
        self._call("POST", f"{self._session}/actions", {"actions": [keyboard]})

    def text(self, selector: str) -> str:
        """The text that a reader sees in the first element that fits; works with scripts off."""
        return str(self._call("GET", f"{self._find(selector)}/text"))

    def wait(self, ask: Callable[[], _Found]) -> _Found:
        """Ask until the answer is true; fails after 20 s."""
        end = time.monotonic() + _PATIENCE_S
        while not (answer := ask()):
            if time.monotonic() > end:
                raise TimeoutError("the browser did not do it in time")
            time.sleep(0.05)
        return answer

    def requests(self) -> list[str]:
        """Every address asked for since the last call."""
        entries = self._call("POST", f"{self._session}/se/log", {"type": "performance"})
        messages = [json.loads(entry["message"])["message"] for entry in entries]
        return [m["params"]["request"]["url"] for m in messages if m["method"] == "Network.requestWillBeSent"]

    def pdf(self, width_cm: float = 21.0, height_cm: float = 29.7) -> bytes:
        """Print the page; the paper's size in centimetres, A4 unless told otherwise."""
        paper = {"page": {"width": width_cm, "height": height_cm}, "background": True}
        return base64.b64decode(self._call("POST", f"{self._session}/print", paper))

    def pdf_as_styled(self) -> bytes:
        """Print the page on sheets of the size that its style sheets ask for."""
        return base64.b64decode(self.command("Page.printToPDF", preferCSSPageSize=True)["data"])

    def picture(self) -> bytes:
        """A PNG of what the window shows."""
        return base64.b64decode(self._call("GET", f"{self._session}/screenshot"))
