"""The project's own names that the judges ask for: the one place to change when one is renamed."""

from __future__ import annotations

# Checks of report.json, by what each measures.
WALL_LEAST = "wall.least"
WALL_LIP = "wall.lip"
WALL_RECESS = "wall.recess"
WALL_CLEARANCE = "wall.clearance"
WALL_UNIT_THREAD = "wall.unit-thread"
WALL_TENON = "wall.tenon"
WALL_TENON_TIP = "wall.tenon-tip"
WALL_THROUGH = "wall.through"
WALL_RELIEF = "wall.relief"
WALL_WORST = "wall.worst"
OVERLAP_PERCENT = "thread.unit.percent"
OVERLAP_TURNS = "thread.unit.turns"
OVERLAP_PLAY = "thread.unit.play"

# Files of one design's folder.
STL = "section.stl"
STEP = "section.step"
PLAIN_STEP = "section-plain.step"
DXF = "half-section.dxf"
PROFILE = "profile.dxf"
SVG = "half-section.svg"
DRAWING = "drawing.dxf"
WALLS = "walls.svg"
SHEET_HTML = "sheet.html"
SHEET_PDF = "sheet.pdf"
REPORT = "report.json"
# Which build made the files beside it.
MADE_BY = ".made-by"

# Layer of the DXF that carries the visible edges and nothing else.
OUTLINE_LAYER = "outline"
# Layer of the wall of the bores.
BORE_LAYER = "bore"

# Exit statuses.
NOTHING_BREAKS, A_CHECK_BREAKS, INPUT_WRONG = 0, 1, 2
