"""Headless Chromium: what a page is on a screen and on paper."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import tempfile
from html import unescape
from pathlib import Path
from typing import Any

import pytest

NAMES = ("chromium", "chromium-browser")
# No network, no first-run pages, no sandbox (a container's root has none).
FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--hide-scrollbars",
]
# No page takes longer; one that does has hung.
SECONDS = 60
# Runs in the page, once it is laid out: what reaches over its right edge, and how wide it is.
MEASURE = """
<script>
const wide = document.documentElement.clientWidth;
const over = [...document.body.querySelectorAll("*")].filter(e => {
  const box = e.getBoundingClientRect();
  return box.width > 0 && (box.right > wide + 0.5 || box.left < -0.5);
}).map(e => e.tagName + "." + (e.getAttribute("class") || "") + " " + (e.textContent || "").trim().slice(0, 40));
const cut = [...document.querySelectorAll("td, th, p, li, caption, figcaption")].filter(
  e => e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0
).map(e => e.textContent.trim().slice(0, 60));
const found = {wide: wide, scroll: document.documentElement.scrollWidth, over: over, cut: cut};
document.body.setAttribute("data-found", JSON.stringify(found));
</script>
</body>
"""


def binary() -> str:
    """Chromium; a skip that names its package where it is not there, no skip where none is allowed."""
    for name in NAMES:
        if path := shutil.which(name):
            return path
    if os.environ.get("SECTIONWRIGHT_NO_SKIP") == "1":
        pytest.fail("no chromium on this machine")
    pytest.skip("needs the Debian package chromium")


def run(arguments: list[str]) -> str:
    """Runs it on an empty profile; what it prints."""
    with tempfile.TemporaryDirectory() as profile:
        command = [binary(), *FLAGS, f"--user-data-dir={profile}", *arguments]
        done = subprocess.run(command, capture_output=True, text=True, timeout=SECONDS, check=True)
    return done.stdout


def measured(page: Path, width: int, work: Path) -> dict[str, Any]:
    """The page in a window so wide, as it measures itself; it has no script of its own."""
    html = page.read_text("utf-8")
    assert "</body>" in html
    copy = work / f"{page.stem}-{width}.html"
    copy.write_text(html.replace("</body>", MEASURE, 1), "utf-8")
    dom = run([f"--window-size={width},1200", "--dump-dom", copy.as_uri()])
    found = re.search(r'data-found="([^"]*)"', dom)
    assert found, "the page was not laid out"
    return json.loads(unescape(found.group(1)))


def printed(page: Path, work: Path) -> Path:
    """The page as it is printed, as PDF."""
    path = work / f"{page.stem}-printed.pdf"
    run(["--no-pdf-header-footer", f"--print-to-pdf={path}", page.as_uri()])
    return path
