"""The sheet for the lathe as a reader has it: its steps by their words, and the holes that they make."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from html.parser import HTMLParser
from math import inf, radians, tan
from pathlib import Path

NUMBER = r"(\d+\.\d+)"
VOID = {"meta", "br"}


@dataclass
class Step:
    """A row: its title, and its columns by their heads."""

    title: str
    columns: dict[str, str] = field(default_factory=dict)
    notes: str = ""


class _Page(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.steps: list[Step] = []
        self.holdings: list[tuple[int, str]] = []
        self.open: list[str] = []
        self.into: str | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        about = dict(attrs)
        if tag in VOID:
            return
        self.open.append(tag)
        kind = about.get("class") or ""
        if tag == "tbody" and kind == "step":
            self.steps.append(Step(""))
        elif tag == "tbody" and kind == "hold":
            self.holdings.append((len(self.steps), ""))
            self.into = "hold"
        elif tag == "tr" and kind == "title":
            self.into = "title"
        elif tag == "tr" and kind == "notes":
            self.into = "notes"
        elif tag == "td" and about.get("data-head"):
            self.into = about["data-head"]

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """A tag that closes itself, as SVG's do."""

    def handle_endtag(self, tag: str) -> None:
        assert self.open and self.open[-1] == tag, f"</{tag}> closes {self.open[-3:]}"
        self.open.pop()
        if tag in ("td", "th", "tr", "tbody", "table"):
            self.into = None

    def handle_data(self, data: str) -> None:
        if self.into is None or not data.strip():
            return
        words = " " + data.strip()
        if self.into == "hold":
            at, said = self.holdings[-1]
            self.holdings[-1] = (at, said + words)
        elif self.into == "title":
            self.steps[-1].title += words
        elif self.into == "notes":
            self.steps[-1].notes += words
        else:
            said = self.steps[-1].columns
            said[self.into] = said.get(self.into, "") + words


@dataclass(frozen=True)
class Page:
    """Steps in their order, and before which of them the work is held how."""

    steps: list[Step]
    holdings: list[tuple[int, str]]


def read(path: Path) -> Page:
    """Reads it strictly: a tag that is not closed, or closes another one, fails."""
    page = _Page()
    page.feed(path.read_text("utf-8"))
    page.close()
    assert page.open == [], page.open
    return Page(page.steps, page.holdings)


@dataclass(frozen=True)
class Hole:
    """A tool's hole from the finished front face; its full diameter goes to `depth`."""

    diameter: float
    depth: float
    point: float | None

    def radius_at(self, z: float) -> float:
        """What it takes at z."""
        if z <= self.depth:
            return self.diameter / 2
        if self.point is None:
            return 0.0
        return max(0.0, self.diameter / 2 - (z - self.depth) * tan(radians(self.point / 2)))


def holes(page: Page) -> list[Hole]:
    """The holes that its steps make, by their words alone: what is set, less what is still to come off the face."""
    found = []
    for step in page.steps:
        title = re.search(r"\b(?:drill|bore|mill|ream|make) the [\w -]+, Ø" + NUMBER, step.title)
        if not title:
            continue
        words = step.columns["set"]
        diameter = float(title.group(1))
        if "right through" in words:
            found.append(Hole(diameter, inf, None))
            continue
        depth = re.search(NUMBER + " deep", words)
        assert depth, step
        to_come = re.search(NUMBER + " still to come off", step.columns["face"])
        point = re.search(NUMBER + "° point", step.columns["tool"])
        assert "front face" in step.columns["face"], step
        off = float(to_come.group(1)) if to_come else 0.0
        found.append(Hole(diameter, float(depth.group(1)) - off, float(point.group(1)) if point else None))
    return found
