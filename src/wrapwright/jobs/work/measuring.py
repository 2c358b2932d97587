"""Measuring: what one converted render says, for the checks that need pixels."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import rgb_of
from wrapwright.core.checks.facts import Measured
from wrapwright.core.design.elements import Code, Picture, goes_round, kind_word
from wrapwright.core.design.fields import filled
from wrapwright.core.design.kinds.code import QUIET_MODULES
from wrapwright.core.design.supplies import CodeModules
from wrapwright.jobs.work.composing import Composition

if TYPE_CHECKING:
    from wrapwright.outside.raster.measuring.stack import Keep
    from wrapwright.outside.raster.measuring.subjects import Eye, Subject

Bytes = NDArray[np.uint8]


def measured_of(composed: Composition, keep: Keep | None = None) -> Measured:
    """Return the figures of one render; `keep` gives back what a copy gave when it was painted before."""
    from wrapwright.outside.raster.measure import measure
    from wrapwright.outside.raster.measuring.stack import painted_now

    colouring = composed.colouring
    found = measure(
        composed.draw_list,
        colouring.pixels,
        subjects_of(composed),
        space=colouring.working,
        eye=eye_of(composed),
        keep=keep or painted_now,
    )
    return replace(found, ink_limit_percent=composed.opened.job.colour.ink_limit_percent)


def subjects_of(composed: Composition) -> list[Subject]:
    """Return every copy of every element as the measuring wants to know it."""
    from wrapwright.outside.raster.measuring.subjects import Subject

    job, supplies = composed.opened.job, composed.supplied.supplies
    subjects = []
    for extent in composed.draw_list.extents:
        element, supply = job.elements[extent.element], supplies.get(extent.element)
        is_code = isinstance(element, Code) and isinstance(supply, CodeModules)
        subjects.append(
            Subject(
                element=extent.element,
                copy=extent.copy,
                name=element.name,
                kind=kind_word(element),
                masked=isinstance(element, Picture) and element.mask is not None,
                wide=goes_round(element),
                code_text=filled(element.text, job.fields) if isinstance(element, Code) and is_code else None,
                code_modules=len(supply.dark) + 2 * QUIET_MODULES if isinstance(supply, CodeModules) else 0,
            )
        )
    return subjects


def eye_of(composed: Composition) -> Eye:
    """Return how the job's colours come out: as they are on the driver route, else through the printer's profile."""
    from wrapwright.outside.codes.reading import texts_read
    from wrapwright.outside.raster.measuring.subjects import Eye, by_colour

    coating = rgb_of(composed.opened.job.blank.coating)
    there, proofing = composed.colouring.there, composed.colouring.proofing()
    if there is None or proofing is None:
        return Eye(coating, seen=lambda codes: codes, read=texts_read)

    def seen(codes: Bytes) -> Bytes:
        return by_colour(codes, lambda few: proofing.seen(there.strip(few)))

    def off(codes: Bytes) -> NDArray[np.float64]:
        return by_colour(codes, lambda few: proofing.short(few, there.strip(few)))

    def ink(codes: Bytes) -> NDArray[np.float64]:
        return by_colour(codes, lambda few: there.strip(few).sum(axis=-1) / 2.55)

    return Eye(coating, seen=seen, read=texts_read, off=off, ink=ink if there.device.space == "cmyk" else None)
