"""A browser to read a page with: Chromium, told what to do through two pipes.

Its own protocol needs no library: commands and answers are JSON, a zero byte after each.
"""

import base64
import json
import os
import shutil
import subprocess
from pathlib import Path
from types import TracebackType
from typing import Any

COMMAND = shutil.which("chromium") or shutil.which("chromium-browser")
WHY_NOT = "needs Chromium (on Debian: apt-get install chromium)"

PIXELS_AN_INCH = 96


class Browser:
    """One browser with one page, shut when its block ends."""

    def __init__(self, profile: Path) -> None:
        assert COMMAND is not None, WHY_NOT
        theirs_in, ours_out = os.pipe()
        ours_in, theirs_out = os.pipe()

        def hand_over() -> None:
            # The protocol's pipes are 3 and 4, whatever numbers they have here.
            spare_in, spare_out = os.dup(theirs_in), os.dup(theirs_out)
            os.dup2(spare_in, 3)
            os.dup2(spare_out, 4)

        self.process = subprocess.Popen(
            [
                COMMAND, "--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run",
                "--disable-dev-shm-usage", "--hide-scrollbars", "--remote-debugging-pipe",
                f"--user-data-dir={profile}",
            ],
            close_fds=False,
            preexec_fn=hand_over,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )  # fmt: skip
        os.close(theirs_in)
        os.close(theirs_out)
        self.to, self.back = os.fdopen(ours_out, "wb"), os.fdopen(ours_in, "rb")
        self.count, self.session, self.read = 0, "", b""
        target = self.told("Target.createTarget", url="about:blank")["targetId"]
        attached = self.told("Target.attachToTarget", targetId=target, flatten=True)
        self.session = attached["sessionId"]
        self.told("Page.enable")

    def __enter__(self) -> "Browser":
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.to.close()
        self.back.close()
        try:
            self.process.wait(10)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()

    def _answers(self) -> dict[str, Any]:
        while b"\0" not in self.read:
            more = os.read(self.back.fileno(), 1 << 16)
            assert more, "the browser has gone"
            self.read += more
        answer, self.read = self.read.split(b"\0", 1)
        return dict(json.loads(answer))

    def told(self, method: str, **params: Any) -> dict[str, Any]:
        """Give a command, return its answer."""
        self.count += 1
        command = {"id": self.count, "method": method, "params": params}
        if self.session:
            command["sessionId"] = self.session
        self.to.write(json.dumps(command).encode() + b"\0")
        self.to.flush()
        while True:
            answer = self._answers()
            if answer.get("id") == self.count:
                assert "error" not in answer, answer
                return dict(answer["result"])

    def shows(self, page: Path, *, wide: int, tall: int = 900) -> None:
        """Show a page in a window so many CSS pixels wide."""
        self.told(
            "Emulation.setDeviceMetricsOverride",
            width=wide, height=tall, deviceScaleFactor=1, mobile=False,
        )  # fmt: skip
        self.told("Page.navigate", url=page.as_uri())
        waiting = "new Promise(r => document.readyState === 'complete' ? r() : (onload = r))"
        # Set anew for each page: a promise of the page before is dropped, not kept.
        self.asks(f"{waiting}.then(() => 1)")

    def asks(self, script: str) -> Any:
        """Return what a script comes to in the page."""
        answer = self.told(
            "Runtime.evaluate", expression=script, awaitPromise=True, returnByValue=True
        )
        assert "exceptionDetails" not in answer, answer["exceptionDetails"]
        return answer["result"].get("value")

    def prints(self, *, wide: float, tall: float) -> bytes:
        """Return the page printed as PDF on paper so many inches wide and tall."""
        answer = self.told(
            "Page.printToPDF", paperWidth=wide, paperHeight=tall, preferCSSPageSize=False
        )
        return base64.b64decode(answer["data"])

    def pictures(self) -> bytes:
        """Return the whole page as a PNG."""
        answer = self.told("Page.captureScreenshot", captureBeyondViewport=True)
        return base64.b64decode(answer["data"])
