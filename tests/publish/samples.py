"""Day sheets built by hand, with invented people: what the drawings are tried on."""

from datetime import date

from meetward.barbell.discs import BarAndDiscs, plan
from meetward.barbell.ladder import ladder
from meetward.barbell.standard import CLUB_DISCS, competition_kit
from meetward.catalogue.drill import Dose, Drill
from meetward.catalogue.movement import Fault, Movement
from meetward.cycle.tree import Reps, SetGroup, Span
from meetward.fit.fitted import DayBetween, DayLine, DayPart, DaySegment, DaySet, DaySheet
from meetward.problem import Place, Problem
from meetward.units import show_kg
from meetward.why import Why

CLUB = BarAndDiscs(2000, 0, CLUB_DISCS)
MEET = competition_kit()

CAUTIONS = (
    "Sharp, spreading or lasting pain, numbness, dizziness or chest pain: stop, and see a professional.",
    "Clear platform, collars on, learn to bail; nobody spots a snatch or a clean and jerk by hand.",
)


def movement(id: str, name: str, family: str = "snatch") -> Movement:
    return Movement(
        id=id,
        name=name,
        family=family,
        reference="snatch",
        positions=("start",),
        equipment=("bar", "discs"),
        summary=f"{name}: up in one stroke. Stay over the bar until it has passed the knee.",
        purpose="Speed under the bar and a sure receiving position.",
        setup="Bar over the mid-foot, hands wide, hips above the knees, shoulders just in front of the bar.",
        execution="Push the floor away, keep the bar close, finish tall, pull yourself under and stand up.",
        cues=("Push the floor away", "Bar to you", "Finish tall", "Punch up, meet the bar"),
        faults=(
            Fault(
                "The bar swings away from the hip",
                "Sweep the bar in with the lats from the knee on",
                "Arms pull early",
            ),
            Fault("Landing on the toes", "Wait for the hip; keep pushing through the whole foot"),
        ),
        cautions=("Learn to drop the bar in front and behind before it gets heavy.",),
    )


def drill(id: str, name: str) -> Drill:
    return Drill(
        id=id,
        name=name,
        kind="dynamic",
        uses=("between sets",),
        regions=("ankle",),
        equipment=("none",),
        dose=Dose(reps=5, per_side=True),
        minutes=1.0,
        summary="Half kneeling, drive the knee over the toes and back; heel stays down.",
        purpose="Room for the knee in the bottom.",
        how="Half kneeling, lean the knee forward over the second toe, hold a breath, come back.",
        cues=("Heel down", "Knee over the second toe"),
        cautions=(),
    )


SNATCH = movement("snatch", "Snatch")
PULL = movement("snatch_pull", "Snatch pull", "pull")
SQUAT = movement("front_squat", "Front squat", "squat")
PRESS = movement("push_press", "Push press", "press")
ANKLE = drill("ankle_rock", "Ankle rock")


def day_set(
    dag: int | None,
    count: int,
    reps: int,
    load: str,
    *,
    high_dag: int | None = None,
    weights_dag: tuple[int, ...] = (),
    placeholder: bool = False,
    instruction: str = "",
    kit: BarAndDiscs = CLUB,
    why: str = "",
) -> DaySet:
    top = high_dag if high_dag is not None else dag
    return DaySet(
        group=SetGroup(Span(count, count), (Reps(reps, reps),)),
        scheme=f"{count} × {reps}",
        load_said=load,
        low_dag=dag,
        high_dag=top,
        weights_dag=weights_dag,
        placeholder=placeholder,
        instruction=instruction,
        discs=None if top is None else plan(kit, top),
        why=Why(
            why
            or (
                f"{load} of best snatch 85 kg (tested 3 Oct 2026); nearest here: {show_kg(dag)} kg."
                if dag is not None
                else f"'{load}' is felt, so no kilo is given."
            ),
            inputs=(("best snatch", "85 kg, tested 3 Oct 2026"),),
            rule="nearest weight this bar can make; a tie goes to the lighter",
        ),
    )


def day_line(
    entry: Movement, *sets: DaySet, between: bool = False, detail: str = "", turn: str = "", kit=CLUB
) -> DayLine:
    first = next((s.low_dag for s in sets if s.low_dag is not None), None)
    return DayLine(
        name=entry.name,
        parts=(DayPart(entry.name, detail, entry),),
        sets=sets,
        ladder=None if first is None else ladder(kit, first),
        between=(DayBetween("Ankle rock", "5 each side", ANKLE),) if between else (),
        steps=(),
        notes=(),
        turn=turn,
        priority="should",
        minutes=14.0,
    )


def steps_line(name: str, *steps: tuple[str, str]) -> DayLine:
    return DayLine(
        name=name,
        parts=(DayPart(name, "", None),),
        sets=(),
        ladder=None,
        between=(),
        steps=tuple((step, dose, ANKLE if "Ankle" in step else None) for step, dose in steps),
        notes=(),
        turn="",
        priority="should",
        minutes=10.0,
    )


WARM_UP = DaySegment(
    "warm-up",
    (
        steps_line(
            "General warm-up",
            ("Row or skip", "3 min"),
            ("Ankle rock", "5 each side"),
            ("Squat to stand", "5"),
            ("Stick pass-through", "8"),
            ("Hip circle", "5 each way"),
            ("Thoracic turn", "5 each side"),
        ),
        steps_line(
            "Snatch bar complex",
            ("Muscle snatch", "5, empty bar"),
            ("Overhead squat", "5, empty bar"),
            ("Snatch balance", "3, empty bar"),
            ("Hang snatch", "3, empty bar"),
        ),
    ),
    14.0,
)
RECOVERY = DaySegment(
    "recovery",
    (
        steps_line(
            "Cool down",
            ("Easy bike", "5 min"),
            ("Couch stretch", "60 s each side"),
            ("Breathing, legs up", "2 min"),
        ),
    ),
    9.0,
)
LIFTS = DaySegment(
    "lifts",
    (
        day_line(
            SNATCH,
            day_set(6000, 1, 3, "70 %"),
            day_set(6500, 2, 2, "76 %"),
            day_set(7000, 4, 1, "82 %"),
            between=True,
        ),
        day_line(PULL, day_set(7500, 4, 3, "90 %"), detail="2 s pause at the knee"),
        day_line(
            SQUAT, day_set(9000, 2, 3, "75–80 %", high_dag=9500), day_set(10000, 2, 2, "85 %"), between=True
        ),
        day_line(
            PRESS,
            day_set(4500, 5, 5, "65 %", weights_dag=(3500, 4000, 4000, 4500, 4500)),
        ),
        DayLine(
            "Back extension",
            (DayPart("Back extension", "", None),),
            (day_set(None, 3, 12, "bodyweight", instruction="Bodyweight; slow on the way down."),),
            None,
            (),
            (),
            ("Or good morning with the empty bar.",),
            "",
            "could",
            6.0,
        ),
    ),
    64.0,
)


def sheet(**changes) -> DaySheet:
    """A day of usual size; ``changes`` replace fields."""
    fields = {
        "lifter": "Mara Ellwood",
        "lifter_key": "mara-ellwood",
        "cycle": "Twelve weeks to the Spring Open",
        "club": "Harrow Lane Weightlifting",
        "week": 6,
        "weeks": 12,
        "week_role": "load",
        "phase": "Strength",
        "session": 3,
        "title": "Snatch and front squat",
        "key": True,
        "on": date(2027, 2, 24),
        "meet": "Eskmouth Spring Open",
        "meet_on": date(2027, 4, 3),
        "aim": "Six singles that all look the same.",
        "notes": (),
        "segments": (WARM_UP, LIFTS, RECOVERY),
        "minutes": 87.0,
        "minutes_why": Why("Warm-up 14 min, lifts 64 min with the rests, recovery 9 min."),
        "unit": "kg",
        "bar_dag": 2000,
        "collars_dag": 0,
        "cautions": CAUTIONS,
        "problems": (),
    }
    return DaySheet(**(fields | changes))


def without_bests() -> DaySheet:
    """A beginner: starts to work up from, a felt load, a missing best."""
    lifts = DaySegment(
        "lifts",
        (
            day_line(
                SNATCH,
                day_set(
                    3000,
                    4,
                    3,
                    "70 %",
                    high_dag=4000,
                    placeholder=True,
                    instruction="Work up from 30 kg and tell your coach; likely 30 to 40 kg.",
                    why="No best snatch yet; derived from back squat 70 kg: a start, no prescription.",
                ),
            ),
            day_line(SQUAT, day_set(None, 5, 5, "RPE 8", instruction="Stop with two good reps left.")),
            day_line(
                PRESS,
                day_set(
                    None, 1, 2, "heavy double", instruction="Work up to a heavy double, then tell your coach."
                ),
            ),
        ),
        40.0,
    )
    return sheet(
        lifter="Jo Penhale",
        lifter_key="jo-penhale",
        segments=(WARM_UP, lifts),
        problems=(
            Problem(
                Place(said="Week 6, session 3"),
                "no best",
                "There is no best front squat.",
                "Enter one after today.",
                severity="look",
            ),
        ),
    )


def long_sheet(lines: int = 14) -> DaySheet:
    """More lines than a page holds at full size."""
    many = tuple(LIFTS.lines[n % 4] for n in range(lines))
    return sheet(segments=(WARM_UP, DaySegment("lifts", many, 120.0), RECOVERY))
