"""Pages of a PDF as PDFium sees them: each text with the box of its ink and the height of its capitals, each line with its width."""

from __future__ import annotations

import ctypes
import dataclasses
import math
import pathlib

import pypdfium2
import pypdfium2.raw as pdfium

# Capitals of the embedded sans, as a share of its size (OS/2 table: 1409 of 2048).
CAPITAL = 1409 / 2048
MM = 25.4 / 72


@dataclasses.dataclass
class PrintedText:
    words: str
    # Left, bottom, right, top in millimetres from the left lower corner of the page.
    box: tuple[float, float, float, float]
    capital_mm: float


@dataclasses.dataclass
class PrintedPage:
    number: int
    size: tuple[float, float]
    texts: list[PrintedText]
    # Widths of lines, and outlined rectangles.
    pens: set[float]
    frames: list[tuple[float, float, float, float]]


def pages(pdf: pathlib.Path) -> list[PrintedPage]:
    document = pypdfium2.PdfDocument(pdf)
    try:
        return [page_of(document[number], number + 1) for number in range(len(document))]
    finally:
        document.close()


def page_of(page, number: int) -> PrintedPage:
    read = PrintedPage(number, (page.get_width() * MM, page.get_height() * MM), [], set(), [])
    textpage = page.get_textpage()
    boxes: dict[int, list] = {}
    left, right, bottom, top = (ctypes.c_double() for _ in range(4))
    for index in range(textpage.count_chars()):
        sign = chr(pdfium.FPDFText_GetUnicode(textpage.raw, index))
        if sign.isspace() or pdfium.FPDFText_IsGenerated(textpage.raw, index) == 1:
            continue
        of_object = pdfium.FPDFText_GetTextObject(textpage.raw, index)
        if not pdfium.FPDFText_GetCharBox(textpage.raw, index, left, right, bottom, top):
            continue
        key = ctypes.addressof(of_object.contents) if of_object else -index - 1
        size = ctypes.c_float()
        matrix = pdfium.FS_MATRIX()
        pdfium.FPDFTextObj_GetFontSize(of_object, size)
        pdfium.FPDFPageObj_GetMatrix(of_object, matrix)
        scaled = size.value * math.hypot(matrix.b, matrix.d)
        entry = boxes.setdefault(key, ["", [math.inf, math.inf, -math.inf, -math.inf], scaled])
        entry[0] += sign
        box = entry[1]
        box[0], box[1] = min(box[0], left.value), min(box[1], bottom.value)
        box[2], box[3] = max(box[2], right.value), max(box[3], top.value)
    for words, box, size in boxes.values():
        read.texts.append(PrintedText(words, tuple(value * MM for value in box), size * CAPITAL * MM))
    for shape in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH], max_depth=3):
        fill, stroke = ctypes.c_int(), ctypes.c_int()
        pdfium.FPDFPath_GetDrawMode(shape.raw, fill, stroke)
        if not stroke.value:
            continue
        width = ctypes.c_float()
        pdfium.FPDFPageObj_GetStrokeWidth(shape.raw, width)
        matrix = shape.get_matrix()
        read.pens.add(round(width.value * math.hypot(matrix.a, matrix.b) * MM, 3))
        box = shape.get_bounds()
        if is_rectangle(shape, box) and min(box[2] - box[0], box[3] - box[1]) * MM > 1.0:
            read.frames.append(tuple(value * MM for value in box))
    return read


def is_rectangle(shape, box) -> bool:
    """Whether a path is closed, of four straight sides or with rounded corners, and touches every side of its box in two places."""
    count = pdfium.FPDFPath_CountSegments(shape.raw)
    last = pdfium.FPDFPath_GetPathSegment(shape.raw, count - 1)
    if not pdfium.FPDFPathSegment_GetClose(last) or count > 18:
        return False
    matrix = shape.get_matrix()
    x, y = ctypes.c_float(), ctypes.c_float()
    points = []
    for index in range(count):
        pdfium.FPDFPathSegment_GetPoint(pdfium.FPDFPath_GetPathSegment(shape.raw, index), x, y)
        points.append(matrix.on_point(x.value, y.value))
    most = 2.0
    sides = [
        [point for point in points if abs(point[axis] - box[2 * side + axis]) < most] for axis in (0, 1) for side in (0, 1)
    ]
    spans = [max(p[1 - axis] for p in side) - min(p[1 - axis] for p in side) if side else 0 for axis, side in zip((0, 0, 1, 1), sides)]
    wanted = [box[3] - box[1], box[3] - box[1], box[2] - box[0], box[2] - box[0]]
    return all(span > 0.5 * whole for span, whole in zip(spans, wanted))


def overlaps(texts: list[PrintedText], most: float = 0.15) -> list[tuple[str, str]]:
    """Texts whose ink lies over one another, by more than this in both directions."""
    order = sorted(texts, key=lambda text: text.box[0])
    found, active = [], []
    for text in order:
        active = [other for other in active if other.box[2] - most > text.box[0]]
        for other in active:
            if min(other.box[3], text.box[3]) - max(other.box[1], text.box[1]) > most:
                found.append((other.words, text.words))
        active.append(text)
    return found


def innermost(frames, box):
    """The smallest outlined rectangle around the middle of a box."""
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    around = [frame for frame in frames if frame[0] <= x <= frame[2] and frame[1] <= y <= frame[3]]
    return min(around, key=lambda frame: (frame[2] - frame[0]) * (frame[3] - frame[1]), default=None)


def leaving(page: PrintedPage, most: float = 0.1) -> list[str]:
    """Texts that leave their frame, or the page."""
    found = []
    for text in page.texts:
        frame = innermost(page.frames, text.box) or (0, 0, *page.size)
        inside = (
            text.box[0] >= frame[0] - most
            and text.box[1] >= frame[1] - most
            and text.box[2] <= frame[2] + most
            and text.box[3] <= frame[3] + most
        )
        if not inside:
            found.append(text.words)
    return found
