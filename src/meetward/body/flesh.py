"""How thick the drawn body is around its joints, and the shape of its foot.

Half-thicknesses seen from the side, in cm for a lifter of 170 cm, taller and shorter in proportion. They are
drawn from the eye, not from a table: they make a figure that stands and lies on the floor believably, and
nothing is reckoned from them but the place where the skin touches the floor, a box or the bar.
"""

from meetward.body.segments import Body

DRAWN_FOR_CM = 170.0

SEAT_CM = 10.5
"""From the hip joint to what one sits on, and to the floor when one lies on the back."""
CHEST_CM = 11.0
"""From the middle line to the breastbone."""
BACK_CM = 9.5
"""From the middle line to the shoulder blades."""
KNEE_CM = 5.6
ELBOW_CM = 4.0
PALM_CM = 2.2
"""From the middle of the hand to what it leans on."""
HEAD_HALF_HIGH_CM = 12.0


def scale(body: Body) -> float:
    """What the half-thicknesses above are multiplied with for this lifter."""
    return body.height_cm / DRAWN_FOR_CM
