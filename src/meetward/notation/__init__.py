"""The cycle as coaches write it: text to the cycle and back.

``read(text, catalogue)`` gives the cycle, the problems and what was understood of every line; ``Reader``
does the same
and remembers; ``print_cycle(cycle)`` writes a cycle in the one canonical form.
"""

from .conventions import Conventions
from .entry import Record
from .reader import Reader, read
from .reading import Reading
from .settle import Settled
from .writer import Writer, print_cycle

__all__ = ["Conventions", "Reader", "Reading", "Record", "Settled", "Writer", "print_cycle", "read"]
