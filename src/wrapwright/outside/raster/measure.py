"""What one converted render of a wrap says: the figures of every check that needs pixels."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.checks.facts import Measured, MeasuredCopy
from wrapwright.core.colour.working import WorkingSpace
from wrapwright.core.design.drawlist import DrawList, Extent
from wrapwright.core.design.supplies import Pixels
from wrapwright.outside.raster.measuring.codes import read_back
from wrapwright.outside.raster.measuring.colours import lighter_de, most_ink, out_of_gamut, shown_of
from wrapwright.outside.raster.measuring.contrast import text_contrast
from wrapwright.outside.raster.measuring.pictures import bare_share, frame_de, inside_border, white_share
from wrapwright.outside.raster.measuring.seam import seam_de95
from wrapwright.outside.raster.measuring.stack import Keep, Piece, Stack, painted_now, stacked
from wrapwright.outside.raster.measuring.subjects import Eye, Subject


def measure(
    draw_list: DrawList, pixels: Mapping[str, Pixels], subjects: Sequence[Subject], *, space: WorkingSpace, eye: Eye,
    keep: Keep = painted_now,
) -> Measured:  # fmt: skip
    """Return the figures of a composed wrap, four pixels a millimetre, one row a subject that shows.

    Args:
        draw_list: the wrap; its extents say where the subjects lie.
        pixels: the pictures by id.
        subjects: the copies to measure.
        space: the working space.
        eye: how working colours come out of the printer, and the decoder of codes.
        keep: gives back what a copy gave when it was painted before.
    """
    texts = {(one.element, one.copy) for one in subjects if one.kind == "text"}
    stack = stacked(draw_list, pixels, space, texts, keep)
    places = {(extent.element, extent.copy): extent for extent in draw_list.extents}
    shown = [
        _Shown(subject, stack.pieces[key], places[key], shown_of(stack.pieces[key]))
        for subject in subjects
        if (key := (subject.element, subject.copy)) in stack.pieces and key in places
    ]
    gamut = out_of_gamut([(one.piece, one.pixels) for one in shown], stack, eye)
    rows = []
    for one, (share, worst) in zip(shown, (figures or (None, None) for figures in gamut), strict=True):
        row = _row(one, (draw_list, stack, space, eye))
        row = replace(row, out_of_gamut_share=share, out_of_gamut_worst=worst)
        if one.subject.code_text is not None:
            read = read_back(one.subject, one.extent, draw_list, stack, pixels, space, eye)
            row = replace(row, code_read=read)
        rows.append(row)
    return Measured(tuple(rows), seam_de95(draw_list.wrap, stack, eye), most_ink(stack, eye))


@dataclass(frozen=True, eq=False)
class _Shown:
    """A copy on the wrap: what it is, how it was painted, where it lies, flat indices of its visible pixels."""

    subject: Subject
    piece: Piece
    extent: Extent
    pixels: NDArray[np.int64]


def _row(one: _Shown, scene: tuple[DrawList, Stack, WorkingSpace, Eye]) -> MeasuredCopy:
    """Return the figures of one copy but for those that the printer and the decoder tell."""
    draw_list, stack, space, eye = scene
    subject, piece = one.subject, one.piece
    bare = white = frame = None
    if subject.kind == "picture":
        border = inside_border(piece, one.extent.outline, draw_list.wrap, stack, laps=not subject.wide)
        bare = bare_share(piece, border, stack)
        white = white_share(piece, one.pixels, stack, eye)
        frame = None if subject.masked else frame_de(piece, border, stack, eye)
    return MeasuredCopy(
        element=subject.name,
        copy=subject.copy,
        contrast=text_contrast(piece, stack, space, eye) if subject.kind == "text" else None,
        bare_share=bare,
        white_share=white,
        frame_de=frame,
        lighter_de=lighter_de(piece, one.pixels, stack, space, eye),
    )
