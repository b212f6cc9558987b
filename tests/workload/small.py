"""A small catalogue and short ways to write lines, for tests that should not hang on the shipped data."""

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.drill import Dose, Drill
from meetward.catalogue.movement import Movement, Ratio
from meetward.catalogue.sequence import Sequence, Step
from meetward.cycle.load import Load, Of, Open, Percent
from meetward.cycle.tree import Cycle, Line, Part, Phase, Reps, Segment, Session, SetGroup, Span, Week

SOURCE = "common practice, no source"


def movement(id_: str, family: str, reference: str, **more) -> Movement:
    """A movement with as little text as the type allows."""
    fields = {
        "name": id_.replace("_", " ").capitalize(),
        "positions": ("start",),
        "equipment": ("bar", "discs"),
        "summary": "",
        "purpose": "",
        "setup": "",
        "execution": "",
        "cues": (),
        "faults": (),
        "cautions": (),
    }
    return Movement(id=id_, family=family, reference=reference, **(fields | more))


def share(of: str, low: int, typical: int, high: int) -> Ratio:
    """A usual ratio. [permille]"""
    return Ratio(of, low, typical, high, SOURCE)


MOVEMENTS = (
    movement("snatch", "snatch", "snatch", ratios=(share("clean_and_jerk", 780, 800, 840),)),
    movement("power_snatch", "snatch", "snatch"),
    movement("snatch_pull", "pull", "snatch"),
    movement("clean_and_jerk", "clean and jerk", "clean_and_jerk"),
    movement(
        "clean", "clean", "clean",
        reference_else="clean_and_jerk", ratios=(share("clean_and_jerk", 1000, 1020, 1050),),
    ),
    movement("power_clean", "clean", "clean"),
    movement("clean_pull", "pull", "clean"),
    movement("jerk", "jerk", "jerk", reference_else="clean_and_jerk"),
    movement("front_squat", "squat", "front_squat", ratios=(share("clean_and_jerk", 1050, 1100, 1150),)),
    movement("back_squat", "squat", "back_squat", ratios=(share("clean_and_jerk", 1300, 1310, 1400),)),
    movement("push_press", "press", "push_press"),
    movement("overhead_squat", "overhead", "overhead_squat", ratios=(share("snatch", 950, 1000, 1100),)),
    movement("dumbbell_press", "press", "dumbbell_press", equipment=("dumbbell",), lifts_per_rep=0),
    movement("side_plank", "trunk", "side_plank", equipment=("none",), lifts_per_rep=0),
)  # fmt: skip

ANKLE_ROCK = Drill(
    id="ankle_rock", name="Ankle rock", kind="dynamic", uses=("warm-up", "between sets"), regions=("ankle",),
    equipment=("none",), dose=Dose(reps=5, per_side=True), minutes=0.5, summary="Knee over toes.",
    purpose="", how="", cues=("Heel stays down",), cautions=(),
)  # fmt: skip

BAR_COMPLEX = Sequence(
    id="snatch_bar", name="Snatch bar complex", version=1, minutes=10, purpose="",
    steps=(Step("ankle_rock", "5 each way"), Step("power_snatch", "3 reps, empty bar")),
    cautions=("Warm first.",),
)  # fmt: skip

CATALOGUE = Catalogue(MOVEMENTS, (ANKLE_ROCK,), (BAR_COMPLEX,))


def percent(low: float, high: float | None = None, of: Of | None = None) -> Percent:
    """A percentage or a range of one."""
    return Percent(round(low * 10), round((low if high is None else high) * 10), of or Of())


def sets(count: int | None, *reps: int | None, load: Load | None = None, **more) -> SetGroup:
    """``sets(4, 3, load=percent(70))``: four sets of three at 70 %; more reps for a complex."""
    return SetGroup(
        None if count is None else Span(count, count),
        tuple(None if r is None else Reps(r, r) for r in reps),
        Open() if load is None else load,
        **more,
    )


def line(movements: str, *groups: SetGroup, **more) -> Line:
    """``line("clean + jerk", sets(...))`` by catalogue ids."""
    ids = [m.strip() for m in movements.split("+")]
    parts = tuple(Part(i.replace("_", " ").capitalize(), i if i in _IDS else "") for i in ids)
    return Line(parts, tuple(groups), **more)


_IDS = {entry.id for entry in CATALOGUE}


def session(*lines: Line, warm_up: tuple[Line, ...] = (), recovery: tuple[Line, ...] = (), **more) -> Session:
    """A session with its lifts, and a warm-up and recovery where given."""
    segments = [
        Segment(kind, ls)
        for kind, ls in (("warm-up", warm_up), ("lifts", lines), ("recovery", recovery))
        if ls
    ]
    return Session(tuple(segments), **more)


def cycle(*weeks: tuple[Session, ...], **more) -> Cycle:
    """A cycle of one phase."""
    return Cycle((Phase(tuple(Week(sessions) for sessions in weeks)),), **more)
