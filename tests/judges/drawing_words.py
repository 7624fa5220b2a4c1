"""What the words of a drawing say: values with their last digit and limits, threads, notes.

Numbers as ISO 129-1 writes them; general tolerances by ISO 2768-1, tables 1 to 3, as the project's reference has them
(linear f and m as published there; radii, chamfers and angles from memory).
"""

from __future__ import annotations

import re
from dataclasses import dataclass

# Half of the last digit that a drawing in millimetres gives: it writes micrometres where it must, and leaves out
# digits that are 0. Greater, and a size that is wrong by hundredths would pass.
LENGTH_ROUNDING = 0.0005
# The same for an angle in degrees, given to a tenth.
ANGLE_ROUNDING = 0.05

NUMBER = r"(\d+(?:\.\d+)?)"
SIGNED = r"([+-]\d+(?:\.\d+)?|0)"
LIMITS = rf"(?: ?±{NUMBER}| {SIGNED}/{SIGNED})?"
ANGLE_LIMITS = rf"(?: ?±{NUMBER}°| {SIGNED}°?/{SIGNED}°)?"
PATTERNS = {
    "length": re.compile(rf"{NUMBER}{LIMITS}"),
    "chamfer": re.compile(rf"{NUMBER}{LIMITS} [×x] {NUMBER}°{ANGLE_LIMITS}"),
    "diameter": re.compile(rf"Ø{NUMBER}{LIMITS}(?: [A-Za-z ]+)?"),
    "radius": re.compile(rf"R{NUMBER}{LIMITS}"),
    "angle": re.compile(rf"{NUMBER}°{ANGLE_LIMITS}"),
}
THREAD = re.compile(rf"(M|Tr){NUMBER}[x×](?:Ph{NUMBER}P{NUMBER}|{NUMBER}(?:P{NUMBER})?)(.*)")

# ISO 2768-1 tables 1 and 2: up to this size, plus and minus so much, for the classes f and m.
LINEAR = {
    "f": [(6.0, 0.05), (30.0, 0.1), (120.0, 0.15), (400.0, 0.2)],
    "m": [(6.0, 0.1), (30.0, 0.2), (120.0, 0.3), (400.0, 0.5)],
}
ROUNDED = [(3.0, 0.2), (6.0, 0.5), (400.0, 1.0)]
# Table 3, shorter leg up to 10 mm: the classes f and m, in degrees. No cone of a section has a longer one.
ANGLES = 1.0
# Under this size a general tolerance says nothing, in mm (ISO 2768-1, tables 1 and 2, footnote).
LEAST_GENERAL = 0.5


class DrawingFault(AssertionError):
    """The drawing does not say what it must."""


@dataclass(frozen=True)
class Value:
    """A number as drawn, how much it may have been rounded by, and its own limits where it has them."""

    number: float
    rounding: float
    limits: tuple[float, float] | None
    kind: str

    def may_be_off(self, general: str | None) -> tuple[float, float]:
        """Least and greatest deviation, by its own limits or the drawing's class."""
        if self.limits is not None:
            return self.limits
        if general is None:
            raise DrawingFault(f"{self.number} has no limits, and no note gives general ones")
        if self.kind == "angle":
            return -ANGLES, ANGLES
        if self.number < LEAST_GENERAL:
            raise DrawingFault(f"{self.number} is under {LEAST_GENERAL} and has no limits of its own")
        table = ROUNDED if self.kind in ("radius", "chamfer") else LINEAR[general]
        off = next(off for most, off in table if self.number <= most)
        return -off, off


@dataclass(frozen=True)
class ThreadWords:
    """A thread's designation. Sizes in mm."""

    form: str
    nominal: float
    pitch: float
    starts: int
    left: bool


def decoded(raw: str) -> str:
    """Text as it is read: the codes that DXF has for signs stand for them."""
    for code, sign in (("%%c", "Ø"), ("%%p", "±"), ("%%d", "°")):
        raw = raw.replace(code, sign).replace(code.upper(), sign)
    return re.sub(r"\\U\+([0-9A-Fa-f]{4})", lambda m: chr(int(m[1], 16)), raw).strip()


def values(text: str) -> tuple[str, list[Value]] | None:
    """The kind of a size and its values (two for a chamfer: length and angle); none where it is no such size."""
    for kind, pattern in PATTERNS.items():
        found = pattern.fullmatch(text)
        if found:
            groups = found.groups()
            first = "angle" if kind == "angle" else kind
            result = [value(groups[0], groups[1:4], first)]
            if kind == "chamfer":
                result.append(value(groups[4], groups[5:8], "angle"))
            return kind, result
    return None


def value(number: str, limits: tuple[str | None, ...], kind: str) -> Value:
    both, one, other = limits
    off = None
    if both is not None:
        off = (-float(both), float(both))
    elif one is not None:
        off = (min(float(one), float(other)), max(float(one), float(other)))
    return Value(float(number), ANGLE_ROUNDING if kind == "angle" else LENGTH_ROUNDING, off, kind)


def thread(text: str) -> ThreadWords | None:
    """A thread's designation: ISO 965-1 and, of several starts, Ph and P."""
    found = THREAD.fullmatch(text)
    if not found:
        return None
    form, nominal, lead, of_lead, single, of_single, rest = found.groups()
    pitch = float(of_lead or of_single or single)
    starts = round(float(lead or single) / pitch)
    return ThreadWords(form, float(nominal), pitch, starts, "LH" in rest)


@dataclass(frozen=True)
class Notes:
    """What the notes say: the general class, cones' angle where none is shown, checks that the limits do not keep."""

    general: str | None
    cone: Value | None
    not_kept: frozenset[str]

    @staticmethod
    def of(lines: list[str]) -> Notes:
        text = " ".join(lines)
        general = re.search(r"ISO 2768-([fm])\b", text)
        cone = re.search(rf"[Cc]one angles?:? {NUMBER}°", text)
        kept = re.search(r"not kept by these limits: ([a-z0-9., -]+)", text)
        codes = frozenset(re.findall(r"[a-z]+(?:[.-][a-z]+)+", kept[1])) if kept else frozenset()
        angle = value(cone[1], (None, None, None), "angle") if cone else None
        return Notes(general[1] if general else None, angle, codes)
