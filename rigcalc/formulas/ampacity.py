"""Current-carrying capacity of conductors: corrections to a table value.

The table value, its rule set and the printed factors come from `rigcalc.tables`.
"""

from __future__ import annotations

from math import sqrt

from rigcalc.errors import need
from rigcalc.formulas._inputs import at_least_0, temperature


def corrected_ampacity_a(table_a: float, *factors: float) -> float:
    """Ampacity after its correction factors.

    Parameters
    ----------
    table_a : float
        Ampacity printed in the table, 0 or more. [A]
    *factors : float
        Correction for ambient, engine space, bundling and so on, each 0 to 2. [-]

    Returns
    -------
    float
        Corrected ampacity. [A]

    Notes
    -----
    I_z = I_table f1 f2 ...; factors above 1 only occur where it is colder than the table's ambient.

    References
    ----------
    33 CFR 183.425, Table 5, notes 1 and 2.

    Examples
    --------
    >>> round(corrected_ampacity_a(60, 0.85, 0.6), 1)
    30.6
    """
    at_least_0("Table ampacity", table_a, "A")
    for factor in factors:
        need(0 <= factor <= 2, "Correction factor", factor, "0 to 2, a fraction and not a percentage")
        table_a *= factor
    return table_a


def ambient_factor(rating_c: float, ambient_c: float, table_ambient_c: float = 30.0) -> float:
    """Ambient correction where the table prints no row.

    Parameters
    ----------
    rating_c : float
        Temperature rating of the insulation, above the table's ambient. [°C]
    ambient_c : float
        Ambient around the conductor. [°C]
    table_ambient_c : float
        Ambient the table is for. [°C]

    Returns
    -------
    float
        Factor; 0 where the ambient reaches the rating. [-]

    Notes
    -----
    f = sqrt((T_r - T_a) / (T_r - T_table)): heating goes with the square of the current. Where a rule set
    prints a factor, use the printed one.

    References
    ----------
    NFPA 70 Table 310.15(B)(1) follows it to the printed digits, and 33 CFR 183.425 Table 5 note 1 within 0.007, but for
    the 1.00 it prints at 200 °C.

    Examples
    --------
    >>> round(ambient_factor(75, 50), 2), ambient_factor(60, 60)
    (0.75, 0.0)
    """
    temperature("Ambient of the table", table_ambient_c)
    temperature("Insulation rating", rating_c)
    temperature("Ambient temperature", ambient_c)
    need(rating_c > table_ambient_c, "Insulation rating", rating_c, f"above the table's {table_ambient_c:g} °C")
    if ambient_c >= rating_c:
        return 0.0
    return sqrt((rating_c - ambient_c) / (rating_c - table_ambient_c))
