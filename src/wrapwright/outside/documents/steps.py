"""The ticket's steps in words: what to set, what to do, and the cautions where they apply."""

from __future__ import annotations

from dataclasses import dataclass, field

from wrapwright.core.base.heat_words import celsius_range_words
from wrapwright.core.base.places import at_place_words
from wrapwright.core.base.units import both_words, mm_words
from wrapwright.core.press.load.telling import span_words
from wrapwright.data.press import Recipe, cautions_for
from wrapwright.data.recipes import family
from wrapwright.outside.documents.bench_drawings import Page
from wrapwright.outside.documents.facts import BlankFacts, HeatFacts, WrapFacts, bare_edges_mm, covers_wall

Row = list[str]


@dataclass(frozen=True, eq=False)
class SheetFacts:
    """The printed sheets.

    Attributes:
        paper: its name as written.
        page: size and matrix of one page.
        pages: how many pages.
        ppi: pixels per inch of the raster part.
        guides_mm: how far outside the trim the dashed arcs stand, 0 when there are none.
        bleed_mm: art beyond the trim at rim and base, as it could be kept.
        check_bar_mm: length of the check bars, 0 when there was no room.
        route: "driver" or "convert".
        profile, intent, black_point: for the convert route.
        scaled: whether the printer's measured scale is already taken into account.
        notes: sentences about what had to give way on the page.
    """

    paper: str
    page: Page
    pages: int = 1
    ppi: int = 300
    guides_mm: float = 0.0
    bleed_mm: float = 0.0
    check_bar_mm: float = 100.0
    route: str = "driver"
    profile: str = ""
    intent: str = "perceptual"
    black_point: bool = True
    scaled: bool = False
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Step:
    """One step: its title, settings to make, sentences, and cautions as (text, grave)."""

    title: str
    rows: tuple[tuple[str, str], ...] = ()
    lines: tuple[str, ...] = ()
    cautions: tuple[tuple[str, bool], ...] = ()
    hot: bool = False
    figure: str = ""  # a line set large

    def as_data(self) -> dict[str, object]:
        """Return the step as the template reads it."""
        return {
            "title": self.title,
            "rows": [list(row) for row in self.rows],
            "lines": list(self.lines),
            "cautions": [{"text": text, "grave": grave} for text, grave in self.cautions],
            "hot": self.hot,
            "figure": self.figure,
        }


@dataclass(frozen=True, eq=False)
class Work:
    """What the steps are about. ware and heater as in the recipes: "steel", "oven" ..., "unknown" for not known.

    double: whether the blank is double-walled, whatever the recipe is for.
    """

    blank: BlankFacts
    wrap: WrapFacts
    sheet: SheetFacts
    ware: str = "unknown"
    heater: str = "unknown"
    recipe: Recipe | None = None
    names: tuple[str, ...] = field(default=())
    heat: HeatFacts | None = None
    double: bool = False


_MARKS_AWAY = "Cut all marks away: what stays on the paper prints on the piece or the oven."


def steps_of(work: Work) -> list[Step]:
    """Return the steps in the order of the work."""
    joining = [_join(work)] if work.wrap.panels else []
    return [printing(work), _trim(work), *joining, _clean(work), _wrap(work), _heat(work), _unwrap(work)]


def closing_cautions(work: Work) -> list[str]:
    """Return the cautions that hold for the whole piece of work."""
    return [text for text, _ in cautions_of("use", work)]


def cautions_of(step: str, work: Work) -> tuple[tuple[str, bool], ...]:
    """Return the cautions of one step that concern this work, as (text, grave)."""
    flat = work.wrap.flat.plate is not None
    found = cautions_for(step, work.ware, work.heater, flat=flat, double=work.double)
    return tuple((one.text, one.grave) for one in found)


def printing(work: Work) -> Step:
    """Return the first step: what to set in the print dialog, what to look at, and the cautions."""
    sheet = work.sheet
    page = sheet.page
    stand = "portrait" if page.height_mm >= page.width_mm else "landscape"
    named = "" if sheet.paper[:1].isdigit() else f"{shortened(sheet.paper, 32)}, "  # a size is not said twice
    pages = "1 page" if sheet.pages == 1 else f"{sheet.pages} pages, one copy of each"
    rows = [
        (
            "Paper",
            f"{named}{stand}: {page.width_mm:g} × {page.height_mm:g} mm, {pages}. Transfer paper, the side its maker "
            "coated towards the ink.",
        ),
        ("Scale", "Actual size, 100 %. No fitting, no scaling; borderless and expand off."),
        ("Mirror", "Off in the driver: the sheet is already mirrored. Text on the paper reads backwards."),
        ("Colour", _colour(sheet)),
    ]
    lines = ["Nozzle check first: print only when no line of it is missing."]
    if sheet.check_bar_mm > 0:
        lines.append(
            f"Measure the check bars: {sheet.check_bar_mm:g} mm along and across. Off by more than 0.5 mm: stop; "
            "something rescaled the page."
        )
    else:
        lines.append(
            f"No room for check bars on this page: measure the trim instead, {_size(work.wrap)}. "
            "Off by more than 0.5 mm: stop."
        )
    lines.append("Let the print dry until it no longer feels cool to the touch (common practice, no source).")
    return Step("Print", tuple(rows), tuple(lines), cautions_of("print", work))


def _colour(sheet: SheetFacts) -> str:
    if sheet.route == "driver":
        return (
            "Colour control on, in the printer's own software, with the profile for this ink and paper. "
            "The page is sRGB."
        )
    black = "on" if sheet.black_point else "off"
    return (
        f"Colour control off: the page is already in {shortened(sheet.profile, 60)} ({sheet.intent} intent, black "
        f"point compensation {black})."
    )


def _size(wrap: WrapFacts) -> str:
    flat = wrap.flat
    if flat.plate is not None and flat.plate.kind == "circle":
        return f"a circle of {mm_words(flat.trim_width_mm)}"
    if not flat.is_sector:
        return f"{mm_words(flat.trim_width_mm)} × {mm_words(flat.height_mm)}"
    return f"{mm_words(flat.trim_width_mm)} along the longer arc, {mm_words(flat.height_mm)} between the arcs"


def _trim(work: Work) -> Step:
    wrap = work.wrap
    whole = [f"Cut on the trim line: {_size(wrap)}.", *_by_the_arcs(work)]
    lines = [
        *(
            ["Cut the two ends of each panel at its corner marks. Leave rim and base for later."]
            if wrap.panels
            else whole
        ),
        *([] if wrap.panels else [_MARKS_AWAY]),
    ]
    lines += work.sheet.notes
    folded = [name for name, edge in (("rim", wrap.rim), ("base", wrap.base)) if edge == "fold"]
    if folded:
        lines.append(f"Do not cut at the {' and the '.join(folded)}: the paper stands over there and is folded.")
    return Step("Trim", lines=tuple(lines), cautions=cautions_of("trim", work))


def _join(work: Work) -> Step:
    """Return the step in which the panels become one wrap."""
    count = len(work.wrap.panels)
    lines = [
        f"Lay the {count} panels printed side up, panel 1 at the right: each edge marked meets panel … goes over the "
        "strip marked under panel …, on the line between that panel's inner marks, mark to mark at rim and base.",
        "Hold each join with heat tape on the back, never on the print.",
        f"Now cut rim and base through all panels: {_size(work.wrap)} when they are one.",
        *_by_the_arcs(work),
        _MARKS_AWAY,
    ]
    return Step("Join the panels", lines=tuple(lines))


def _by_the_arcs(work: Work) -> list[str]:
    """Return how the curved cuts of a tapered wrap or a flat blank are found on the paper."""
    flat, sheet = work.wrap.flat, work.sheet
    if flat.plate is not None and sheet.guides_mm > 0:
        return [f"Cut {mm_words(sheet.guides_mm)} inside the dashed line, all round."]
    if not flat.is_sector:
        return []
    if sheet.guides_mm > 0:
        return [f"Rim and base: cut {mm_words(sheet.guides_mm)} inside the dashed arcs."]
    edge = f"cut {mm_words(sheet.bleed_mm)} inside the art's edge" if sheet.bleed_mm > 0 else "follow the art's edge"
    return [
        f"Rim and base: {edge}. Where the art is white or see-through, cut a template from plain paper (arcs of radius "
        f"{mm_words(flat.inner_radius_mm)} and {mm_words(flat.outer_radius_mm)} about one centre), lay it on and go "
        "round it."
    ]


def _clean(work: Work) -> Step:
    lines = ["Wipe the coating with a lint-free cloth and cleaner; let it dry. Touch it with clean gloves only."]
    if work.wrap.flat.plate is not None:
        lines.insert(0, "Peel off every protective film and sticker.")
    return Step("Clean the blank", lines=tuple(lines), cautions=cautions_of("prepare", work))


def _wrap(work: Work) -> Step:
    wrap, blank = work.wrap, work.blank
    flat = wrap.flat
    if flat.plate is not None:
        return _lay(work)
    up = "longer arc up" if flat.theta > 0 else "shorter arc up" if flat.theta < 0 else "rim edge up"
    lines = [f"Printed side to the wall, {up}. {_edges(blank, wrap)}"]
    if flat.gap_mm:
        lines.append(
            "End 1 (marked lay first) to the right of the handle, end 2 (marked lay on top) to its left, "
            f"{mm_words(flat.gap_mm / 2)} from the handle's middle each. "
            "Tape only in the bare gap and outside the band."
        )
    else:
        seam = at_place_words(flat.seam_deg)
        over = (
            f"end 2 comes on top and laps over it by {mm_words(flat.overlap_mm)}"
            if flat.overlap_mm
            else "end 2 butts against it"
        )
        lines.append(f"End 1 (lay first) goes down with its edge on the seam's line, {seam}; {over}.")
        if blank.weld:
            lines.append("If the blank has a weld line, put the seam on it.")
        lines.append(
            "Pull tight. Tape only on the overlap and outside the band: tape on the print leaves its mark."
            if flat.overlap_mm
            else "Pull tight. Tape only outside the band: tape on the print leaves its mark."
        )
    if not _pressed(work):
        lines.append("Sleeve over the wrap: the paper must lie tight everywhere.")
    return Step("Wrap", lines=tuple(lines), cautions=cautions_of("wrap", work))


def _lay(work: Work) -> Step:
    """Return the step in which the transfer is laid on a flat blank."""
    lines = [
        "Printed side to the coating, the edge marked top at the blank's top, every edge flush with the blank's.",
        "Tape it over the edge on to the back, never on the print: tape on the print leaves its mark.",
    ]
    if _pressed(work):
        lines.append("Lay it on the plate with plain paper below and above, so that no dye reaches plate or pad.")
    else:
        lines.append("It needs pressure all over: clamp it evenly between flat plates with plain paper on both sides.")
    return Step("Lay on", lines=tuple(lines), cautions=cautions_of("wrap", work))


def _edges(blank: BlankFacts, wrap: WrapFacts) -> str:
    """Return where the wrap's edges lie on the wall, as a sentence."""
    if covers_wall(blank, wrap):
        return "It covers the whole wall: lower edge at the wall's lower end, upper edge at its upper end."
    base, rim = bare_edges_mm(blank, wrap)
    return (
        f"Lower edge {both_words(base)} above the wall's lower end, upper edge {both_words(rim)} below its upper end."
    )


def _heat(work: Work) -> Step:
    recipe, heat = work.recipe, work.heat
    what = "wall" if work.wrap.flat.plate is None else "blank"
    figure = "No recipe named"
    rows: tuple[tuple[str, str], ...] = ()
    lines: tuple[str, ...] = ()
    cautions = cautions_of("heat", work)
    if recipe is None:
        lines = ("Take temperature and time from the makers of the blank, the ink and the paper.", _counted(work, what))
    elif heat is not None and heat.figure:
        figure, rows, lines = heat.figure, (*heat.rows, ("Recipe", _recipe(recipe))), heat.lines
    else:
        figure = f"{celsius_range_words(recipe.celsius)}, {span_words(*recipe.seconds)}"
        lines = (f"{shortened(recipe.title, 80)}: a range, {recipe.source}; the maker's instructions come first.",)
        lines += heat.lines if heat is not None else ()
        lines += (_counted(work, what),)
    if heat is not None:
        cautions = (*heat.cautions, *cautions)
    return Step("Heat", rows, lines, cautions, hot=True, figure=figure)


def _recipe(recipe: Recipe) -> str:
    told = f"{celsius_range_words(recipe.celsius)}, {span_words(*recipe.seconds)}"
    return f"{told}: {shortened(recipe.title, 60)}; {recipe.source}. The maker's instructions come first."


def _counted(work: Work, what: str) -> str:
    """Return from when a time counts; makers count otherwise than recipes do."""
    if work.recipe is None:
        return f"A maker's time may count from when paper or {what} is at temperature, not from closing the door."
    if _pressed(work):
        return "The time counts from closing the hot press."
    return f"The time counts from closing the door of the hot oven, not from when paper or {what} is at temperature."


def _pressed(work: Work) -> bool:
    return family(work.heater) == "press"


def _unwrap(work: Work) -> Step:
    lines = (
        "Gloves on. Peel in one movement without letting the paper slide (ghosting); let the piece cool in air.",
        "Look at it in good light: keep or reject, and write down why.",
    )
    return Step("Unwrap and look", lines=lines, cautions=cautions_of("finish", work), hot=True)


def shortened(text: str, most: int) -> str:
    """Return the text, cut to `most` characters with an ellipsis when it is longer."""
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"
