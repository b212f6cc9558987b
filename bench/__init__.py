"""Measurements of speed: `make bench`, or `python -m bench [part ...]`.

A part is a module of this package with a ``TITLE`` and a function ``run() -> Iterable[Figure]``, named in
``PARTS`` of ``bench.__main__``. Every comparison is made in one run on one machine, so its figure is a ratio.
"""
