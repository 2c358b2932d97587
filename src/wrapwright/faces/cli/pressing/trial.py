"""`press trial`: small pieces heated for chosen times, scored by eye, and the window of doses they tell."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.faces.cli.kept.telling import group, show_columns
from wrapwright.faces.cli.options import Force, Json, Quiet, Verbose
from wrapwright.faces.cli.readings import length_option, misuse
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wrapwright.core.press.trial.values import Scores
    from wrapwright.jobs.bench import Bench
    from wrapwright.jobs.press.trial.values import TrialTold

Name = Annotated[str, typer.Argument(metavar="NAME", help="The trial's name.")]
Wall = Annotated[str | None, length_option("Thickness of the coupons, or of the blank's wall.")]
Size = Annotated[str, typer.Option(metavar="WIDTHxHEIGHT", help="Of a coupon: 32 mm x 50 mm unless given.")]

_OPTIONS = {
    "wall": "--wall", "celsius": "--at", "dwell": "--for", "pieces": "--pieces", "recipe": "--recipe",
    "press: recipe": "--recipe", "within": "--within", "sure": "--sure", "size": "--size", "length": "--length",
    "spares": "--spares", "material": "--material",
}  # fmt: skip
_SCORED = re.compile(r"\s*([0-9]{1,4})\s*=\s*([0-9]{1,4}|-)\s*,\s*([0-9]{1,4}|-)\s*,\s*([0-9]{1,4}|-)\s*")


def every(*, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """List the trials."""
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.trial.keeping import list_trials
    from wrapwright.jobs.press.trial.values import ListTrials

    talk, bench = Talk(quiet, verbose, json), _bench()
    found = list_trials(ListTrials(), bench, Watch())
    if json:
        from wrapwright.jobs.press.trial.stated import listed_statement

        show_document({"format": FORMAT, "trials": [listed_statement(one) for one in found]})
        return
    state = {True: "accepted", False: ""}
    show_columns(
        [(one.name, one.kind, one.recipe, f"{one.scored} of {one.pieces} scored", state[one.accepted]) for one in found]
    )
    if not found:
        talk.say('There is no trial yet. Plan one: wrapwright press trial plan "Steel window" --recipe steel-oven')


def plan(
    name: Name,
    *,
    recipe: Annotated[str, typer.Option(metavar="NAME", help="What the window is wanted for.")],
    kind: Annotated[str, typer.Option(metavar="KIND", help="coupons, strip or positions.")] = "coupons",
    heater: Annotated[str, typer.Option(metavar="NAME", help="The heater, or its kind.")] = "",
    wall: Wall = None,
    material: Annotated[str, typer.Option(metavar="NAME", help="Of that, if not what the recipe says.")] = "",
    backed: Annotated[
        bool | None, typer.Option("--backed/--free", help="Coupons heated from one side, or from both.")
    ] = None,
    at: Annotated[list[str] | None, typer.Option(metavar="TEMP", help='"195 C" or "383 F"; may be repeated.')] = None,
    stay: Annotated[
        list[str] | None, typer.Option("--for", metavar="TIME", help='"5 min", "90 s"; each with every temperature.')
    ] = None,
    pieces: Annotated[
        int | None, typer.Option("--pieces", "-n", metavar="NUMBER", help="Not the fewest that do.")
    ] = None,
    all_at_once: Annotated[bool, typer.Option("--all-at-once", help="Heat all before any is scored.")] = False,
    within: Annotated[float, typer.Option(metavar="RATIO", help="Wanted ratio of the ends of each bound.")] = 2.0,
    sure: Annotated[float, typer.Option(metavar="PERCENT", help="In how many of the windows that could be.")] = 80.0,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Plan a trial: which coupons to heat how hot and how long.

    Unless told otherwise it begins with four coupons, and each further one is proposed by what those before it told.
    A strip is one blank that is heated once for every part; positions of one heat tell where it is cold, not how long.
    """
    from wrapwright.core.press.recipe.asked import celsius_of, seconds_of
    from wrapwright.jobs.press.trial.planning import plan_trial
    from wrapwright.jobs.press.trial.values import PlanTrial

    talk, bench = Talk(quiet, verbose, json), _bench()
    _known_kind(kind)
    request = PlanTrial(
        name, recipe, kind.casefold(), heater,  # type: ignore[arg-type]
        wall_mm=_length("--wall", wall),
        material=material,
        free=None if backed is None else not backed,
        celsius=tuple(celsius_of(one, where="--at") for one in at or ()),
        seconds=tuple(seconds_of(one, where="--for") for one in stay or ()),
        pieces=pieces,
        one_by_one=not all_at_once,
        within=within,
        sure=sure / 100.0,
    )  # fmt: skip
    with talk.watching() as watch:
        told = _named(lambda: plan_trial(request, bench, watch))
    _tell(told, talk, how=True)


def one(name: Name, *, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """Show a trial: its coupons with their doses and scores, and the window they tell."""
    from wrapwright.jobs.press.trial.keeping import show_trial
    from wrapwright.jobs.press.trial.values import ShowTrial

    talk, bench = Talk(quiet, verbose, json), _bench()
    with talk.watching() as watch:
        told = show_trial(ShowTrial(name=name), bench, watch)
    _tell(told, talk)


def print_coupons(
    name: Name,
    *,
    output: Annotated[Path, typer.Option("--output", "-o", metavar="FILE", help="Where the PDF goes.")],
    setup: Annotated[str, typer.Option(metavar="NAME", help="A set-up that is kept.")] = "",
    paper: Annotated[str | None, typer.Option(metavar="PAPER", help="Letter, A4, A3 ... or 13x19 in.")] = None,
    size: Size = "",
    length: Annotated[str | None, length_option("Distance round the blank, for positions.")] = None,
    spares: Annotated[int | None, typer.Option(metavar="NUMBER", help="Coupons whose heat is written by hand.")] = None,
    force: Force = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Print a trial's coupons: true size, mirrored, each with its number and its heat."""
    from wrapwright.jobs.calibrate.target import hand_over
    from wrapwright.jobs.press.trial.printing import PrintTrial, print_trial

    talk, bench = Talk(quiet, verbose, json), _bench()
    if not setup and paper is None:
        raise misuse("coupons need their paper.", "Add --paper Letter, or --setup NAME.")
    sheet = {} if paper is None else {"paper": paper}
    request = PrintTrial(
        name=name, setup=setup, sheet=sheet, size_mm=_size(size), length_mm=_length("--length", length), spares=spares
    )
    with talk.watching() as watch:
        printed = _named(lambda: print_trial(request, bench, watch))
        hand_over(printed.data, output, force=force)
    if json:
        figures = {
            "file": output.as_posix(),
            "paper": printed.paper,
            "pages": printed.pages,
            "coupons": printed.coupons,
        }
        show_document({"format": FORMAT, "printed": {**figures, "cautions": list(printed.cautions)}})
        return
    show(str(output))
    talk.say(f"{printed.coupons} coupons for {printed.paper}; print them at actual size.")
    for caution in printed.cautions:
        talk.say(caution)


def score(
    name: Name,
    scores: Annotated[
        list[str], typer.Argument(metavar="NUMBER=D,S,Y", help="Density, sharpness, yellowing, 1 to 5; - not judged.")
    ],
    *,
    heated: Annotated[
        list[str] | None, typer.Option(metavar="NUMBER=TIME", help="What a coupon really got; may be repeated.")
    ] = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Score coupons, five always the best.

    Density: 1 hardly any colour, 5 full. Sharpness: 1 lines run together, 5 the finest stand apart. Yellowing: 1 yellow
    or brown, 5 as white as an unheated piece. Judge in daylight, coupons beside each other.
    """
    from wrapwright.core.press.recipe.asked import seconds_of
    from wrapwright.jobs.press.trial.keeping import score_trial
    from wrapwright.jobs.press.trial.values import ScoreTrial

    talk, bench = Talk(quiet, verbose, json), _bench()
    given = dict(_scored(one) for one in scores)
    times = {number: seconds_of(text, where="--heated") for number, text in (_pair(one) for one in heated or ())}
    with talk.watching() as watch:
        told = score_trial(ScoreTrial(given, times, name=name), bench, watch)
    _tell(told, talk)


def ahead(
    name: Name,
    *,
    add: Annotated[bool, typer.Option("--add", help="Add it to the trial as its next coupon.")] = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Propose the next coupon: the heat from which most is to be learned, and why."""
    from wrapwright.jobs.press.trial.keeping import add_coupon, propose_next
    from wrapwright.jobs.press.trial.stated import next_statement
    from wrapwright.jobs.press.trial.values import AddCoupon, ShowTrial

    talk, bench = Talk(quiet, verbose, json), _bench()
    with talk.watching() as watch:
        found = propose_next(ShowTrial(name=name), bench, watch)
        number = len(add_coupon(AddCoupon(name=name), bench, watch).coupons) if add else 0
    if json:
        show_document({"format": FORMAT, "next": {**next_statement(found), "added": number or None}})
        return
    for words in found.words:
        show(words)
    if add:
        talk.say(f"It is coupon {number} of {name} now.")


def accept(
    name: Name,
    *,
    no_longer: Annotated[bool, typer.Option("--no-longer", help="Planning goes by it no longer.")] = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Take the trial's window as what planning goes by."""
    from wrapwright.jobs.press.trial.keeping import accept_trial
    from wrapwright.jobs.press.trial.values import AcceptTrial

    talk, bench = Talk(quiet, verbose, json), _bench()
    with talk.watching() as watch:
        told = accept_trial(AcceptTrial(not no_longer, name=name), bench, watch)
    _tell(told, talk)


def remove(name: Name, *, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """Remove a trial with its scores."""
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.trial.keeping import drop_trial
    from wrapwright.jobs.press.trial.values import DropTrial

    talk = Talk(quiet, verbose, json)
    gone = drop_trial(DropTrial(name=name), _bench(), Watch())
    if json:
        show_document({"format": FORMAT, "removed": gone})
    else:
        talk.say(f"{gone} is removed.")


def _bench() -> Bench:
    from wrapwright.faces.opening import bench_of, open_settings

    return bench_of(open_settings())


def _named(step: Any) -> Any:
    """Return what a step returns; a problem is called by the options' names."""
    try:
        return step()
    except WrapwrightError as problem:
        raise _as_options(problem) from None


def _as_options(problem: WrapwrightError) -> WrapwrightError:
    if isinstance(problem, SeveralProblemsError):
        return SeveralProblemsError(tuple(_as_options(one) for one in problem.problems))
    where = _OPTIONS.get(problem.where, problem.where)
    return WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=where)


def _known_kind(kind: str) -> None:
    from wrapwright.core.press.trial.values import KINDS

    if kind.casefold() not in KINDS:
        raise WrapwrightError(Kind.USAGE, f'--kind "{kind}" is none of {", ".join(KINDS)}.', remedy="Take one of them.")


def _length(option: str, text: str | None) -> float | None:
    from wrapwright.faces.cli.readings import lengths_of

    return None if text is None else lengths_of({option: text}, [])[0][option]


def _size(text: str) -> tuple[float, float] | None:
    from wrapwright.core.base.units import length_mm

    if not text:
        return None
    parts = text.replace("×", "x").split("x")
    if len(parts) != 2:
        message = f'--size "{text}" is not two lengths with an x between them.'
        raise WrapwrightError(Kind.USAGE, message, remedy='Write it as "40 mm x 60 mm".')
    width, height = (length_mm(part, where="--size") for part in parts)
    return width, height


def _scored(text: str) -> tuple[int, Scores]:
    from wrapwright.core.press.trial.values import Scores

    found = _SCORED.fullmatch(text)
    if found is None:
        message = f'"{text}" does not score a coupon.'
        raise WrapwrightError(
            Kind.USAGE, message, remedy='Write "3=4,5,5": coupon 3, density 4, sharpness 5, yellowing 5.'
        )
    return int(found[1]), Scores(*(None if one == "-" else int(one) for one in found.groups()[1:]))


def _pair(text: str) -> tuple[int, str]:
    number, equals, rest = text.partition("=")
    if not equals or not number.strip().isdigit():
        raise WrapwrightError(Kind.USAGE, f'--heated "{text}" names no coupon.', remedy='Write "3=2 min 40 s".')
    return int(number), rest


def _tell(told: TrialTold, talk: Talk, *, how: bool = False) -> None:
    from wrapwright.jobs.press.trial.stated import trial_statement
    from wrapwright.jobs.press.trial.telling import accepted_words, how_words

    if talk.json:
        show_document({"format": FORMAT, "trial": trial_statement(told)})
        return
    show(f"{told.name}: {told.plan.kind}, for {told.plan.recipe}, in {told.plan.heater}")
    show_columns([("", "set to", "for", "dose", "between", "density", "sharpness", "yellowing"), *_rows(told)])
    for one_ in (*(how_words(told.plan) if how else ()), *told.words, *accepted_words(told.accepted)):
        show(one_)
    if told.next is not None:
        show(" ".join(("Next:", *told.next.words)))
    if how:
        for text, _ in told.cautions:
            talk.say(text)


def _rows(told: TrialTold) -> Sequence[tuple[str, ...]]:
    from wrapwright.core.base.heat_words import celsius_words, seconds_words
    from wrapwright.core.press.trial.values import QUALITIES, Scores
    from wrapwright.core.press.trial.words import dose_words, interval_words

    found = []
    for coupon in told.coupons:
        scores = told.scores.get(coupon.number, Scores())
        judged = ("-" if (one := scores.of(quality)) is None else str(one) for quality in QUALITIES)
        dose = coupon.dose
        heat = (celsius_words(coupon.celsius), seconds_words(coupon.seconds), dose_words(dose.mid))
        found.append((str(coupon.number), *heat, interval_words((dose.low, dose.high)), *judged))
    return found


app = group(
    "Trials: which dose is enough, and which too much, told by small pieces scored by eye.",
    (
        ("list", every, "wrapwright press trial list"),
        ("plan", plan, 'wrapwright press trial plan "Steel window" --recipe steel-oven --wall "0.6 mm"'),
        ("show", one, 'wrapwright press trial show "Steel window"'),
        ("print", print_coupons, 'wrapwright press trial print "Steel window" --paper Letter -o coupons.pdf'),
        ("score", score, 'wrapwright press trial score "Steel window" 1=2,5,5 2=4,5,5 3=5,4,5 4=5,1,3'),
        ("next", ahead, 'wrapwright press trial next "Steel window" --add'),
        ("accept", accept, 'wrapwright press trial accept "Steel window"'),
        ("remove", remove, 'wrapwright press trial remove "Steel window"'),
    ),
)
