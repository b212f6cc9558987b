"""The words of the trade that the reader knows besides the movements: units, sets, places, ways of doing a
lift."""


def set_of(words: str) -> frozenset[str]:
    """The words of a text as a set."""
    return frozenset(words.split())


KG = frozenset(("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"))
LB = frozenset(("lb", "lbs", "pound", "pounds"))
SECONDS = frozenset(("s", "sec", "secs", "second", "seconds", "ct", "count", "counts"))
MINUTES = frozenset(("min", "mins", "minute", "minutes"))
METRES = frozenset(("m", "meter", "meters", "metre", "metres"))
SETS = set_of("""set sets series serie round rounds approach approaches groups st sätze satz 组 組
    подход подхода подходов""")
REPS = set_of(
    "rep reps repetition repetitions repeat repeats wdh wiederholungen 次 повторений повторения раза раз"
)
SIDE = frozenset(("side", "sides", "leg", "legs", "arm", "arms", "way", "direction", "hand", "foot", "es"))
ONE_SIDED = set_of("leg legged arm armed under unders side kettlebell dumbbell extension hand foot knee")
"""Behind "single" these make the name of a movement, not a number of reps."""
TIMES_OF = {
    "single": 1, "singles": 1, "double": 2, "doubles": 2, "triple": 3, "triples": 3, "quadruple": 4,
    "quadruples": 4,
}  # fmt: skip


def _slips(word: str) -> set[str]:
    """A long word with one letter dropped, doubled or out of place."""
    cuts = range(1, len(word))
    dropped = {word[:k] + word[k + 1 :] for k in cuts}
    doubled = {word[:k] + word[k - 1] + word[k:] for k in cuts}
    swapped = {word[: k - 1] + word[k] + word[k - 1] + word[k + 1 :] for k in cuts}
    return dropped | doubled | swapped


_ARE_WORDS = set_of("tripe singe doubled singled single double triple singles doubles triples")
SLIPS = {
    slip: word
    for word in ("singles", "doubles", "triples", "single", "double", "triple")
    for slip in _slips(word) - _ARE_WORDS
} | {"setsof": "sets", "setof": "set", "repsof": "reps"}
"""Words of numbers that a quick hand wrote wrongly, so that they are no silent part of a name."""
TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80,
    "ninety": 90, "hundred": 100,
}  # fmt: skip
NUMBERS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10,
    "eleven": 11, "twelve": 12, "fifteen": 15, **TENS,
}  # fmt: skip

# Said so often beside numbers that they change nothing.
FILLER = set_of("""a an the of and with at do perform complete then for in on your all total working work
sets's only please
    reps's per from to is are as using use x weight load loads bar's approx approximately about around ca
    circa roughly
    just exercise movement movements by à 每组 每組""")

# How a lift is done without changing which lift it is; never a reason to doubt the numbers beside them.
MANNER = set_of("""controlled explosive fast quick slow slowly strict quality easy smooth crisp clean-cut
perfect good technical
    technique strong snappy deliberate consecutive unbroken straight across fresh relaxed solid aggressive
    quality
    working across moderate-ish beautiful sharp precise consistent patient active passive full deep
    standing""")

# A line that speaks like this is prose, not the name of a movement.
PROSE = set_of("""after before if unless should must can will would you your yours we our us they their i my
me he she his her this that these
    those it its be been was were is are am do does did don't doesn't not never always make sure keep focus
    remember
    think try feel today yesterday tomorrow because so but when while where how why what which than there
    here let
    let's please note notes goal aim week day session program programme cycle phase everyone anyone athlete
    athletes
    lifter lifters coach use add practise practice choose pick stay stop start finish continue go take get
    have has had
    time times score workout training felt tired great awful sore missed strength metcon conditioning wod
    accessories accessory finisher""")

# These make one of two things out of a line, or take something away: the numbers beside them are not to be
# trusted.
DOUBT = set_of("or either except unless instead alternatively odd even if minus plus less add subtract")

SOFT = set_of("light lighter moderate medium easy challenging comfortable")
"""Loads in words."""

PLACE_WORDS = set_of("""knee knees kneecap hip hips hole floor ground hang block blocks thigh mid-thigh
midthigh pocket dip catch bottom top
    split rack overhead shin shins power position receiving squat lockout jerk box riser deficit deck start
    extension
    finish drive rebend low high mid lap crease""")
PLACE_LEADS = set_of("at in below above on off under over from to the through past just before and into")

VARIANTS: tuple[tuple[str, ...], ...] = tuple(
    sorted(
        (
            tuple(phrase.split())
            for phrase in """
        from blocks|from the blocks|from block|from low blocks|from high blocks|from mid blocks|off blocks
        off the blocks
        from the floor|from floor|from ground|from the ground|off the floor|from the hang|from hang
        from high hang
        from low hang|from the high hang|from the low hang|from the hip|from hip|from hips|from the hips
        from the pocket
        from pocket|from power position|from the power position|from mid thigh|from the mid thigh
        from midthigh|at the hip
        from a deficit|from deficit|on a riser|from a riser|on riser|on risers|off riser|deficit|from the dip
        below the knee|below knee|above the knee|above knee|at the knee|at knee|from below the knee
        from below knee
        from above the knee|from above knee|from the knee|from knee|from knees|from just below the knee|at hip
        from just above the knee|from knee height|at mid thigh|to the knee|to knee|to above the knee
        to the hip|to hip
        bk|ak|below knees|above knees|to power position
        no feet|no foot|no foot movement|no feet movement|flat footed|flat foot|feet flat|no jump
        without moving feet
        no hook|no hook grip|hookless|without hook grip|no straps|without straps|strapless|with straps
        straps|in straps
        no belt|beltless|with belt|at the wall|against the wall|on the floor|on a bench|on the bench
        no contact|no brush|no hands|hands free|touch and go|tng|t&g|dead stop
        with a dead stop|reset each rep|slow eccentric|with slow eccentric|eccentric|slow pull|with slow pull
        slow first pull|slow off the floor|to a box|to box|on box|on a box|behind the neck
        from behind the neck
        btn|from the rack|from rack|from racks|out of the rack|in split|from split|from the split|in the split
        split|power|squat|push|full|hang|high hang|low hang|hip|mid hang|block|blocks|floor|ground|muscle|tall
        wide stance|narrow stance|close grip|wide grip|narrow grip|clean grip|snatch grip|jerk grip
        with hold|with a hold|with pause|with a pause|with pauses|paused|pause|pausing|halting|segment
        segmented
        light|seated|standing|alternating|alternate legs|alternate|weighted|unweighted|assisted|banded
        with band
        with bands|with chains|with a band|one-and-a-quarter|one-and-a-half|speed|tempo|complex|deficit
        3 position|controlled|slow|dynamic|explosive|strict|kipping|single arm|single leg|one arm|two arm
        with dumbbells|with dumbbell|dumbbell|dumbbells|db|dbs|with db|with dbs|with kettlebells
        with kettlebell|kb|kbs
        with kb|with kbs|kettlebell|kettlebells|barbell|with barbell|with a barbell|with plate
        on rings|supine|prone""".replace("\n", "|").split("|")
            if phrase.strip()
        ),
        key=len,
        reverse=True,
    )
)

BY_FIRST: dict[str, tuple[tuple[str, ...], ...]] = {}
for _phrase in VARIANTS:
    BY_FIRST[_phrase[0]] = (*BY_FIRST.get(_phrase[0], ()), _phrase)

POSITIONS: dict[tuple[str, ...], str] = {
    ("floor",): "", ("ground",): "", ("from", "floor"): "", ("from", "the", "floor"): "", ("from",
    "ground"): "",
    ("deck",): "", ("full",): "",
    ("hang",): "hang", ("high", "hang"): "high hang", ("low", "hang"): "low hang", ("mid",
    "hang"): "mid hang",
    ("mid", "thigh"): "mid thigh hang", ("midthigh",): "mid thigh hang",
    ("hip",): "high hang", ("hips",): "high hang", ("pocket",): "high hang", ("power",
    "position"): "high hang",
    ("below", "knee"): "below the knee", ("below", "the", "knee"): "below the knee", ("bk",
    ): "below the knee",
    ("above", "knee"): "above the knee", ("above", "the", "knee"): "above the knee", ("ak",
    ): "above the knee",
    ("knee",): "hang at the knee", ("at", "knee"): "hang at the knee", ("knees",): "hang at the knee",
    ("blocks",): "block", ("block",): "block",
}  # fmt: skip
"""Where a lift starts, as a list of positions says it ("2 position snatch (floor, hang)"), and the words
for a name."""
