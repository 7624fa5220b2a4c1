"""Equations with as many unknowns: solved, and held to their rank.

An equation is a polynomial in its unknowns and in the values of dimensions, so that a complex step gives its derivatives
to the last digit (Squire and Trapp, SIAM Review 40, 1998).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np
from drawing_words import DrawingFault

# Singular values below this share of the greatest are none: equations are of the size of millimetres.
RANK = 1e-9
STEP = 1e-30
ROUNDS = 60
SOLVED = 1e-11
# Shares of a left null vector below this are rounding.
IN_NULL = 1e-6

Number = complex | float


@dataclass(frozen=True)
class Equation:
    """A function that is 0 where it holds: of some unknowns and of some values."""

    name: str
    unknowns: tuple[int, ...]
    values: tuple[int, ...]
    is_zero: Callable[[Sequence[Number], Sequence[Number]], Number]
    # Whether a dimension says it, not the geometry: only these can be missing or too many.
    drawn: bool = True


@dataclass
class System:
    """Unknowns by name, values of dimensions, and what holds between them."""

    names: list[str] = field(default_factory=list)
    values: list[float] = field(default_factory=list)
    equations: list[Equation] = field(default_factory=list)

    def unknown(self, name: str) -> int:
        self.names.append(name)
        return len(self.names) - 1

    def off(self, x: np.ndarray, values: np.ndarray) -> np.ndarray:
        """How far each equation is from holding."""
        return np.array([e.is_zero([x[i] for i in e.unknowns], [values[i] for i in e.values]) for e in self.equations])

    def slopes(self, x: np.ndarray, values: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Derivatives by the unknowns, and by the values."""
        by_x = np.zeros((len(self.equations), len(self.names)))
        by_value = np.zeros((len(self.equations), len(self.values)))
        for row, e in enumerate(self.equations):
            xs, vs = [complex(x[i]) for i in e.unknowns], [complex(values[i]) for i in e.values]
            for places, into, numbers in ((xs, by_x, e.unknowns), (vs, by_value, e.values)):
                for n, column in enumerate(numbers):
                    kept = places[n]
                    places[n] = kept + 1j * STEP
                    into[row, column] += e.is_zero(xs, vs).imag / STEP
                    places[n] = kept
        return by_x, by_value

    def solve(self, guess: np.ndarray) -> np.ndarray:
        """Newton's way from a guess, shortened where it overshoots; the nearest where there are many solutions."""
        x, values = np.array(guess, float), np.array(self.values)
        off = self.off(x, values)
        for _ in range(ROUNDS):
            if np.abs(off).max(initial=0.0) < SOLVED:
                return x
            by_x, _ = self.slopes(x, values)
            step = np.linalg.lstsq(by_x, -off, rcond=RANK)[0]
            for share in (1.0, 0.5, 0.25, 0.1, 0.02):
                trial = x + share * step
                left = self.off(trial, values)
                if np.linalg.norm(left) < np.linalg.norm(off):
                    break
            if np.abs(step).max(initial=0.0) < SOLVED:
                break
            x, off = trial, left
        worst = np.abs(off).argmax()
        if abs(off[worst]) > 1e-7:
            raise DrawingFault(f"contradiction of {off[worst]:.4f}, at {self.equations[worst].name}")
        return x

    def again(self, x: np.ndarray, values: np.ndarray) -> np.ndarray:
        """From a solution to that of other values near by."""
        by_x, _ = self.slopes(x, np.array(self.values))
        inverse = np.linalg.inv(by_x)
        for _ in range(ROUNDS):
            off = self.off(x, values)
            if np.abs(off).max() < SOLVED:
                return x
            x = x - inverse @ off
        raise DrawingFault("no part has these sizes")

    def faults(self, x: np.ndarray) -> list[str]:
        """What is free, and which dimensions say what others say."""
        by_x, _ = self.slopes(x, np.array(self.values))
        left, sizes, right = np.linalg.svd(by_x)
        rank = int((sizes > RANK * sizes.max(initial=1.0)).sum())
        free = np.abs(right[rank:]).max(axis=0, initial=0.0) > IN_NULL
        more = np.abs(left[:, rank:]).max(axis=1, initial=0.0) > IN_NULL
        found = []
        if free.any():
            found.append("missing: nothing gives " + ", ".join(n for n, is_free in zip(self.names, free) if is_free))
        if more.any():
            of = [e.name for e, is_more in zip(self.equations, more) if is_more and e.drawn]
            found.append(f"redundant: {len(self.equations) - rank} of " + ", ".join(of))
        return found

    def sensitivity(self, x: np.ndarray) -> np.ndarray:
        """How much each unknown moves with each value."""
        by_x, by_value = self.slopes(x, np.array(self.values))
        return -np.linalg.solve(by_x, by_value)
