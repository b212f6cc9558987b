"""Positions that drills take the lifter into, for restrictions: drills name regions and no positions.

Read off the drills' own text; common practice, no source. A coach's own drill is not in the list, so it is
never left out for a position: the page says so beside it.
"""

from collections.abc import Mapping

from meetward.catalogue.movement import Position

DRILL_POSITIONS: Mapping[str, tuple[Position, ...]] = {
    "ankle_bounce": ("landing",),
    "arm_circle": ("overhead",),
    "band_press_down": ("overhead",),
    "bar_hang": ("overhead", "grip"),
    "bar_hip_contact": ("power position",),
    "bar_turnover": ("turnover", "front rack"),
    "bench_lat_stretch": ("overhead",),
    "bodyweight_squat": ("bottom",),
    "child_pose_reach": ("overhead", "bottom"),
    "disc_pullover": ("overhead",),
    "easy_jog": ("landing",),
    "front_rack_elbow_lift": ("front rack",),
    "frog_stretch": ("bottom",),
    "goblet_squat_sit": ("bottom",),
    "hanging_shrug": ("overhead", "grip"),
    "lat_roller": ("overhead",),
    "lunge_reach_rotate": ("split", "overhead"),
    "miss_practice": ("overhead", "receiving overhead", "receiving front", "bottom"),
    "overhead_elbow_stretch": ("overhead",),
    "overhead_squat_sit": ("overhead", "receiving overhead", "bottom"),
    "rack_lat_reach": ("overhead",),
    "rope_skipping": ("landing",),
    "side_to_side_squat": ("bottom",),
    "slow_long_hinge": ("hinge",),
    "split_sit": ("split",),
    "split_stance_rock": ("split",),
    "split_step": ("split",),
    "squat_hip_shift": ("bottom",),
    "squat_to_stand": ("bottom", "hinge"),
    "star_jump": ("overhead", "landing"),
    "stick_behind_neck_slide": ("behind the neck", "overhead"),
    "stick_drop_squat": ("overhead", "receiving overhead", "bottom"),
    "stick_good_morning": ("hinge", "back rack"),
    "stick_overhead_squat": ("overhead", "receiving overhead", "bottom"),
    "stick_pass_through": ("overhead", "behind the neck"),
    "stick_snatch_positions": ("start", "receiving overhead", "bottom"),
    "wall_dip": ("dip",),
    "wall_slide": ("overhead",),
}
