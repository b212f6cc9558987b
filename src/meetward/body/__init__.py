"""The drawn lifter: segments, positions solved from balance and reach, kept poses, and their drawings.

``reading.shipped().find("snatch")`` gives a drawing, ``draw.strip(drawing)`` its picture;
``solve.solve(sought, body, ranges)`` one position, ``reach.reach(...)`` how deep somebody gets and what
gives out first.

Where to look:

- the lifter: ``segments`` (lengths, masses, their sources), ``ranges`` (of joints), ``figure`` (a lifter in
  one position), ``spots`` (places on them by name), ``balance`` (the common centre of mass).
- positions that are worked out: ``sought`` (what defines one), ``solve`` (the way in), ``stand`` (squats,
  racks, overhead), ``pull``, ``split``, ``arms`` and ``rack`` (hands on the bar), ``limbs`` and ``joints``
  (geometry and angles), ``roots``, ``whynot`` (what gives out, in words), ``reach``.
- positions that are kept: ``pose`` (directions in degrees), ``placing`` (the figure on what it touches),
  ``holding`` and ``reaching`` (bars and hands), ``flesh`` (how thick it is drawn).
- drawings: ``drawings`` (what one is), ``reading``, ``pages``, ``composing``, ``explaining`` and ``seen``
  (from files, with what is wrong in words), ``draw`` (SVG) with ``pen``, ``outline`` and ``things``.
- ``data/``: the drawings and kept poses, and a page on how to write them.
"""
