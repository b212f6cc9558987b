"""Kilograms, pounds, percents and seconds: exact integers inside, words at the edge.

Symbols used everywhere:

``_dag``
    decagram, 10 g. Every kilo that is computed with is an integer of these (102.5 kg = 10250), because
    float rounding puts a wrong half kilo on the bar now and then and integers never do.
``_permille``
    thousandths of a best: 70 % = 700, 72.5 % = 725.
``_s``, ``_minutes``
    seconds, minutes.
"""

from decimal import ROUND_HALF_EVEN, Decimal, InvalidOperation
from fractions import Fraction

DAG_PER_KG = 100
"""Decagrams in a kilogram."""

KG_PER_LB = Fraction(45359237, 100_000_000)
"""Exact by definition: international yard and pound agreement of 1959 (value from memory, a definition)."""

_MOST_DIGITS = 15


def kg_to_dag(kg: int | str | Decimal | Fraction | float) -> int:
    """Decagrams of a number of kilograms, to the nearest 10 g (an exact half goes to the even one).

    Text may carry a comma as decimal sign. Raises ValueError for what is no number, or one of 17
    digits and more.
    """
    if isinstance(kg, Fraction):
        return round(kg * DAG_PER_KG)
    return int((_decimal(kg) * DAG_PER_KG).to_integral_value(ROUND_HALF_EVEN))


def lb_to_dag(lb: int | str | Decimal | float) -> int:
    """Decagrams of a number of pounds, to the nearest 10 g (1 lb = 0.45359237 kg exactly)."""
    return round(Fraction(_decimal(lb)) * KG_PER_LB * DAG_PER_KG)


def show_kg(dag: int) -> str:
    """``10250`` as ``"102.5"``: no trailing zeros, a point as decimal sign, no unit."""
    sign, dag = ("-", -dag) if dag < 0 else ("", dag)
    whole, rest = divmod(dag, DAG_PER_KG)
    return f"{sign}{whole}" if not rest else f"{sign}{whole}.{rest:02d}".rstrip("0")


def show_lb(dag: int) -> str:
    """Decagrams as pounds to one decimal: ``4536`` is ``"100"``."""
    lb = Decimal(dag) / DAG_PER_KG / (Decimal(45359237) / 100_000_000)
    return _plain(lb.quantize(Decimal("0.1")))


def percent_to_permille(percent: int | str | Decimal | float) -> int:
    """``"72.5"`` as ``725``. Raises ValueError when finer than a tenth of a percent."""
    scaled = _decimal(percent) * 10
    if scaled != scaled.to_integral_value():
        raise ValueError(f"{percent} % is finer than a tenth of a percent.")
    return int(scaled)


def show_percent(permille: int) -> str:
    """``725`` as ``"72.5"``, ``700`` as ``"70"``: no percent sign."""
    return _plain(Decimal(permille) / 10)


def show_seconds(seconds: int) -> str:
    """``90`` as ``"1:30"``, ``45`` as ``"45 s"``."""
    return f"{seconds} s" if seconds < 60 else f"{seconds // 60}:{seconds % 60:02d}"


def _decimal(number: int | str | Decimal | float) -> Decimal:
    text = str(number).strip().replace(",", ".")
    try:
        value = Decimal(text)
    except InvalidOperation:
        raise ValueError(f"'{number}' is not a number.") from None
    # A size beyond all weights would cost memory and time for its digits.
    if not value.is_finite() or value.adjusted() > _MOST_DIGITS:
        raise ValueError(f"'{number}' is not a number of a sensible size.")
    return value


def _plain(value: Decimal) -> str:
    text = f"{value:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
