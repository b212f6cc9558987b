"""A lifter's drawn positions in words: reached or not, which joint first, the lean, what a heel does."""

import msgspec

from meetward.body.draw import drawn
from meetward.body.ranges import LUNGE_CHANGE_CM, LUNGE_CHANGE_DEGREES
from meetward.body.sought import Short
from meetward.web.actions.asked import BOTTOM_DEGREES, Asked, Kind, asked, wrist_for_the_rack
from meetward.web.actions.taken import LOW_SHOULDER, LOW_WRIST, Taken

HEELS_MM = (0, 20, 40)
"""Barefoot; about a usual weightlifting shoe (common practice, no source); the most that can be chosen."""

LEANS_MORE = 3.0
"""A lean this much past the easy one is the ankle's doing and worth a sentence. Custom. [degrees]"""

MOST_JOINTS = 2
"""Joints named for one position: more than one or two are not worked on at a time."""

NAMES: dict[Kind, str] = {
    "front-squat": "Front squat, bottom",
    "front-rack": "Front rack",
    "overhead-squat": "Overhead squat, bottom",
}

_JOINTS = {
    "ankle_pointed": "pointed ankle",
    "hip_back": "hip behind the body",
    "shoulder": "shoulder and upper back",
}

_OUTCOMES = {"reached": "Reached", "perhaps": "Perhaps reached", "not reached": "Not reached"}
_USUAL_SHOULDER = "180 degrees at the shoulder; samples of healthy adults gave 156 to 188"
_MASSES = "masses of published tables (Plagenhoef, Evans and Abdelnour 1983)"
_SHOW_IT = "Show it to a physiotherapist or doctor before loading it."


class HeelRow(msgspec.Struct, frozen=True):
    """What one heel does: how far down, and the trunk's lean."""

    heel: str
    depth: str
    lean: str
    chosen: bool


class ShownPosition(msgspec.Struct, frozen=True):
    """One position as the page shows it.

    svg, under : the drawing and what stands under it.
    barefoot : the same without a heel, where one is chosen and it changes something.
    verdict : in a word or two whether it is reached. said : sentences.
    joints : those that give out first, for the choice of drills.
    """

    id: Kind
    name: str
    svg: str
    under: str
    barefoot: str
    barefoot_under: str
    verdict: str
    said: tuple[str, ...]
    lean: str
    rows: tuple[HeelRow, ...]
    joints: tuple[str, ...]


def shown_position(kind: Kind, taken: Taken, heel_mm: int, whose: str) -> ShownPosition:
    """One position with its drawing and words.

    whose : "your" for the lifter, "their" for the coach.
    """
    one = _asked(kind, taken, heel_mm)
    squat = kind != "front-rack"
    words = _Words(taken, whose)
    barefoot = _asked(kind, taken, 0) if squat and heel_mm else None
    return ShownPosition(
        id=kind,
        name=NAMES[kind],
        svg=_svg(one, taken, words),
        under=_under(one),
        barefoot=_svg(barefoot, taken, words) if barefoot else "",
        barefoot_under=_under(barefoot) if barefoot else "",
        verdict=_verdict(one, taken),
        said=words.squat(one) if squat else words.rack(one),
        lean=words.lean(one) if squat else "",
        rows=tuple(_row(_asked(kind, taken, each), heel_mm) for each in HEELS_MM) if squat else (),
        joints=words.joints(one),
    )


def heel_words(heel_mm: int) -> str:
    """A heel in words: barefoot, or its height."""
    return f"{heel_mm} mm heel" if heel_mm else "barefoot"


def level_words(thigh_degrees: float) -> str:
    """A depth in words, by the thigh over the horizontal."""
    return f"about {_level(thigh_degrees)}"


def _level(thigh_degrees: float) -> str:
    whole = round(abs(thigh_degrees))
    if not whole:
        return "level"
    return f"{whole} degrees {'above' if thigh_degrees > 0 else 'below'} level"


def _asked(kind: Kind, taken: Taken, heel_mm: int) -> Asked:
    return asked(kind, taken.body, taken.ranges, taken.ankle, heel_mm)


def _verdict(one: Asked, taken: Taken) -> str:
    if one.kind == "front-rack":
        if "front_rack" in taken.painful:
            return "No result"
        if "front_rack" in taken.examples:
            return "Not passed"
        return _OUTCOMES[one.outcome] if "front_rack" in taken.passed else "Not tested"
    said = _OUTCOMES[one.outcome]
    overhead = one.kind == "overhead-squat"
    if overhead and "overhead_reach" in taken.examples and one.outcome != "reached":
        return f"{said}, in this example"
    # What is not tested is never a pass, so the verdict does not sound like one.
    unknown = taken.ankle_from != "measured" or (overhead and "overhead_reach" not in taken.passed)
    return f"{said} with usual ranges" if unknown else said


def _under(one: Asked) -> str:
    said = heel_words(one.heel_mm).capitalize()
    return said if one.ends[1] is None else f"{said}: as deep as it goes"


def _svg(one: Asked, taken: Taken, words: "_Words") -> str:
    whose = "measured lengths" if taken.own_lengths else "a lifter of middling height"
    if one.kind == "front-rack":
        alt = f"A standing lifter from the side, drawn from {whose}, bar on the shoulders: {_elbows(one)}."
    else:
        depth = level_words(BOTTOM_DEGREES if one.ends[1] is None else one.ends[1])
        heel = heel_words(one.heel_mm) if one.heel_mm else "heels flat"
        alt = (
            f"From the side, drawn from {whose}: thighs {depth}, trunk leaning {words.lean(one)}, {heel}, "
            "bar over the middle of the foot."
        )
    return drawn(one.figure, alt, title=f"{NAMES[one.kind]}, {heel_words(one.heel_mm)}")


def _between(low: float, high: float) -> str:
    """Both ends, or one where they round alike."""
    first, last = sorted((round(low), round(high)))
    return f"about {first} degrees" if first == last else f"{first} to {last} degrees"


def _elbows(one: Asked) -> str:
    under = one.elbows_under_bar_cm
    if abs(under) < 1.5:
        return "elbows about as high as the bar"
    return f"elbows about {abs(under):.0f} cm {'under' if under > 0 else 'over'} the bar"


def _row(one: Asked, chosen_mm: int) -> HeelRow:
    low, middle, _ = one.ends
    if one.outcome == "reached":
        depth = "to the bottom"
    elif one.outcome == "perhaps":
        assert low is not None
        depth = f"to the bottom, or only {_level(low)}"
    else:
        assert middle is not None
        depth = f"only {_level(middle)}"
    lean = _between(*one.leans).removesuffix(" degrees")
    lean = lean if middle is None else f"{lean} there"
    return HeelRow(f"{one.heel_mm} mm", depth, lean, one.heel_mm == chosen_mm)


class _Words:
    """Sentences about one lifter."""

    def __init__(self, taken: Taken, whose: str) -> None:
        self._taken = taken
        self._whose = whose

    def squat(self, one: Asked) -> tuple[str, ...]:
        """What a squat asks, the limiting joint first."""
        taken = self._taken
        order = self._in_order(one)
        said = [self._how_far(one)]
        if taken.ankle_from == "pain":
            said.append(f"Knee to wall was stopped because of pain, so there is no result. {_SHOW_IT}")
        said += [self._short(short, one, first=number == 0) for number, short in enumerate(order)]
        if not order:
            said.append(self._sets_the_lean(one) or f"No joint gives out first. {self._ankle_goes(one)}")
        if one.kind == "overhead-squat":
            said.append(self._overhead_from())
        elif "front_rack" in taken.examples:
            said.append(f"The rack is drawn with {LOW_WRIST:.0f} degrees at the wrist, as an example.")
        if taken.squats_deep is False and one.outcome == "reached":
            said.append("The deep squat hold was not passed: the drawing is kinder here than the floor.")
        if taken.squats_deep and one.outcome != "reached":
            said.append(
                "The deep squat hold was passed, without weight: depth itself is there. What the drawing "
                "finds hard is the trunk that the bar asks for."
            )
        return tuple(said)

    def rack(self, one: Asked) -> tuple[str, ...]:
        """What a front rack asks, and what is known of it."""
        taken, elbows = self._taken, _elbows(one)
        if "front_rack" in taken.examples:
            return (
                f"The front rack test was not passed. The drawing takes {LOW_WRIST:.0f} degrees at the "
                f"wrist, as an example and not measured: {elbows}. As high as the bar would ask for about "
                f"{wrist_for_the_rack(taken.body):.0f} there, and for open fingers.",
                "Wrist, elbow, lats and the turn of the shoulder can each be short; the test does not say "
                "which.",
                "A heel changes nothing here.",
            )
        if "front_rack" in taken.painful:
            said = [
                "The front rack test was stopped because of pain, so there is no result: drawn with usual "
                f"ranges. {_SHOW_IT}"
            ]
        elif "front_rack" in taken.passed:
            said = [f"The front rack test was passed: {elbows}, drawn with usual ranges."]
        else:
            said = [
                f"With usual ranges, {elbows}: wrist 70 degrees, where samples of healthy adults gave 63 to "
                f"86; elbow 150, from memory. The front rack is not tested, so this says nothing of "
                f"{self._whose} own."
            ]
        said += [self._short(short, one, first=n == 0) for n, short in enumerate(one.short[:MOST_JOINTS])]
        return (*said, "A heel changes nothing here.")

    def lean(self, one: Asked) -> str:
        """The trunk's lean with its range."""
        said = _between(*one.leans)
        return said if one.ends[1] is None else f"{said} at the depth drawn"

    def joints(self, one: Asked) -> tuple[str, ...]:
        """The joints to work on, the first one first."""
        if one.kind == "front-rack":
            if "front_rack" in self._taken.examples:
                return ("rack",)
            return tuple(short.joint for short in one.short)
        order = tuple(short.joint for short in self._in_order(one))
        return order or (("ankle",) if self._sets_the_lean(one) else ())

    def _in_order(self, one: Asked) -> tuple[Short, ...]:
        """A joint whose test was not passed comes first; else the one that gives out first."""
        order = one.short
        if "overhead_reach" in self._taken.examples:
            order = tuple(sorted(order, key=lambda short: short.joint != "shoulder"))
        return order[:MOST_JOINTS]

    def _how_far(self, one: Asked) -> str:
        low, middle, high = one.ends
        if one.outcome == "reached":
            return f"Hips below the knees, with any ankle that {self._points_to()}."
        if one.outcome == "perhaps":
            assert low is not None
            return (
                f"Hips below the knees at the upper end of what {self._points_to()}; at the lower end it "
                f"ends with the thighs {level_words(low)}."
            )
        assert low is not None
        assert middle is not None
        assert high is not None
        return f"It ends with the thighs {_ends(low, middle, high)}, over all that {self._points_to()}."

    def _points_to(self) -> str:
        if self._taken.ankle_from == "measured":
            return f"{self._whose} {self._distance()} points to"
        return "most healthy adults have"

    def _distance(self) -> str:
        side = f" on the {self._taken.ankle_side}" if self._taken.ankle_side else ""
        return f"{self._taken.ankle_cm:g} cm{side}"

    def _ankle_is(self) -> str:
        ankle = self._taken.ankle
        span = _between(ankle.low, ankle.high).removesuffix(" degrees")
        if self._taken.ankle_from == "measured":
            return f"{self._whose} {self._distance()} points to {span}"
        return f"most healthy adults have {span} and {self._whose} own is not measured"

    def _sets_the_lean(self, one: Asked) -> str:
        lean, needs, _ = one.comfortable
        if one.leans[1] < lean + LEANS_MORE:
            return ""
        return (
            f"The ankle is at its end first: an easy trunk ({lean:.0f} degrees) would ask for about "
            f"{needs:.0f} degrees there, {self._ankle_is()}. The trunk makes up for it and leans "
            f"{self.lean(one)}."
        )

    def _ankle_goes(self, one: Asked) -> str:
        return f"This depth asks for about {one.ankle:.0f} degrees at the ankle; {self._ankle_is()}."

    def _short(self, short: Short, one: Asked, *, first: bool) -> str:
        many = short.joint in ("shoulder", "toes")
        give, fall = ("give", "fall") if many else ("gives", "falls")
        verb = f"{give} out first" if first else f"{fall} short as well"
        name, asks = _JOINTS.get(short.joint, short.joint), "this depth asks for"
        if short.joint == "ankle":
            return f"The ankle {verb}: {asks} about {short.needed:.0f} degrees, {self._ankle_is()}."
        needed, start = short.needed, f"The {name}"
        if one.kind == "front-rack":
            asks = "elbows as high as the bar ask for"
        elif short.joint == "shoulder" and first and one.comfortable[2] > short.there:
            # A stiff ankle leans the trunk and so asks more of the shoulder; that share is not its own.
            needed, asks = one.comfortable[2], "even with an easy ankle this depth asks for"
        elif short.joint == "shoulder" and not first:
            start = f"With the trunk that far forward the {name}"
        together = " together" if short.joint == "shoulder" else ""
        said = f"{start} {verb}: {asks} about {needed:.0f} degrees{together}, drawn are {short.there:.0f}."
        if needed - short.there < LUNGE_CHANGE_DEGREES:
            said += " So few degrees are fewer than a drawing can tell."
        return said

    def _overhead_from(self) -> str:
        taken = self._taken
        if "overhead_reach" in taken.painful:
            return (
                "The overhead reach was stopped because of pain, so there is no result: drawn with the "
                f"usual range. {_SHOW_IT}"
            )
        if "overhead_reach" in taken.examples:
            return (
                f"The overhead reach was not passed: drawn with {LOW_SHOULDER:.0f} degrees at the shoulder, "
                "the lowest of the published samples, as an example and not measured."
            )
        known = "was passed" if "overhead_reach" in taken.passed else "is not tested"
        return f"The overhead reach {known}: drawn with the usual range ({_USUAL_SHOULDER})."


def _ends(low: float, middle: float, high: float) -> str:
    if round(low) == round(high):
        return level_words(middle)
    return f"{level_words(middle)} ({round(high)} to {round(low)})"


def how_it_is_drawn(taken: Taken, whose: str) -> tuple[str, ...]:
    """What the drawing takes for granted and how far off it can be."""
    tables = "published tables (Drillis and Contini 1966, from memory)"
    return (
        _ankle_drawn(taken),
        f"Lengths: {whose} own where they were measured, elsewhere the share of height in {tables}."
        if taken.own_lengths
        else f"Lengths: a lifter of 170 cm with the proportions of {tables}.",
        "All other joints: usual ranges of healthy adults, several of them common practice or from memory. "
        "None was measured on weightlifters. The shoulder is counted from the arm hanging beside the trunk: "
        "180 is in line with the trunk, more is behind it, and the upper back gives 35 of it (common "
        "practice, no source).",
        f"Weight: lifter and bar balance over the middle of the foot, with the {_MASSES} and a bar as "
        f"heavy as the lifter{'' if taken.own_weight else ', whose bodyweight is not known and a guess here'}"
        ". Feet as wide as the shoulders, toes out by 25 degrees; another stance asks something else.",
        "Heel: geometry only. In people shoes changed less: the foot stood 3.5 degrees steeper and the trunk "
        "22 mm more upright (25 people, Sato 2012, as restated), and each higher wedge asked more of the "
        "knee (15 trained people, Monteiro 2022). A heel is a trade, not a cure.",
    )


def _ankle_drawn(taken: Taken) -> str:
    ankle = taken.ankle
    if taken.ankle_from != "measured":
        why = "stopped because of pain" if taken.ankle_from == "pain" else "not measured"
        return (
            f"Ankle: {why}, so drawn with {ankle.typical:.0f} degrees, and worked out from {ankle.low:.0f} "
            f"to {ankle.high:.0f}, which is what most healthy adults have: 12 cm at the wall, standard "
            "deviation 2.8 (35 adults, Hoch and McKeon 2011)."
        )
    side = (
        f" on the {taken.ankle_side}, the stiffer side or the only one measured," if taken.ankle_side else ""
    )
    return (
        f"Ankle: knee to wall, set up with the drawn lifter, gives {ankle.typical:.0f} degrees for "
        f"{taken.ankle_cm:g} cm{side} and belongs to this drawing alone. One ankle may differ by "
        f"{LUNGE_CHANGE_CM:g} cm or {LUNGE_CHANGE_DEGREES:g} degrees between two tests without any change "
        f"(Powden, Hoch and Hoch 2015), so everything here runs from {ankle.low:.0f} to {ankle.high:.0f}; "
        "the drawing stands in the middle."
    )
