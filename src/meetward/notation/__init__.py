"""The cycle as coaches write it: text to the cycle and back.

``read(text, catalogue)`` gives the cycle, the problems and what was understood of every line;
``Reader`` does the same and remembers; ``print_cycle(cycle)`` writes a cycle in the one canonical form.

The way of a text through the room, and where to look:

- a text: ``reader`` (whole text, caches), ``reading`` (what it gives back), ``headings`` and ``fields``
  (days, weeks, what is declared), ``block`` with ``draft`` (which lines make one entry), ``entry`` (an
  entry read), ``conventions`` (what is declared or shown, and the questions that stay open),
  ``problems``.
- a line: ``tokens`` (signs and words with their places), ``grammar`` (from left to right), ``pieces``
  (several lifts on a line, labels), ``rows`` (pasted tables), ``items`` (what a line is found to say),
  ``words`` (of the trade), ``quoted``.
- the grammar, each a class that builds on those named before it: ``cursor``, ``measures`` (units),
  ``numbers`` and ``figure`` (runs of numbers), ``lists`` (ladders, weights), ``fronts`` (loads with
  their numbers), ``chains`` (which number is what), ``loads`` (loads in words), ``climbs`` (heavy sets
  and back-off sets), ``tempo``, ``timing``, ``parts`` (movements, complexes), ``phrases`` (words),
  ``brackets``, ``marks`` (exact forms), ``signs``, ``figures``.
- names: ``names`` (the longest known name), ``places`` (what stands around it), ``whole_names`` and
  ``known`` (the catalogue's side).
- meaning: ``settle`` (every way to read an entry), ``spread`` (sets that belong together), ``weights``
  (loads).
- out: ``writer`` and ``writing`` (canonical text), ``words_out`` (read aloud), ``ranges``, ``shown``
  (JSON and terminal).
"""

from .conventions import Conventions
from .entry import Record
from .reader import Reader, read
from .reading import Reading
from .settle import Settled
from .writer import Writer, print_cycle

__all__ = ["Conventions", "Reader", "Reading", "Record", "Settled", "Writer", "print_cycle", "read"]
