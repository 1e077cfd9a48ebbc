"""Tables of results as HTML: the first column names the row, numbers line up, a wide table scrolls by itself."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rigcalc.widgets.kit import Markup, h


def cell(value: object, quiet: object = "") -> Markup:
    """A cell of a number, with quieter words under it."""
    under = h('<br><span class="rig-quiet">{}</span>', quiet) if quiet else ""
    return h('<td class="rig-number">{}{}</td>', value, under)


def row(name: object, cells: Iterable[object], picked: bool = False) -> Markup:
    """A row; what is not a cell yet becomes one."""
    made = [one if isinstance(one, Markup) and one.startswith("<td") else cell(one) for one in cells]
    pick = Markup(' class="rig-pick"') if picked else ""
    return h('<tr{}><th scope="row">{}</th>{}</tr>', pick, name, made)


def table(title: str, columns: Sequence[str], rows: Iterable[Markup], note: str = "") -> Markup:
    """A table under its title; columns after the first hold numbers.

    Examples
    --------
    >>> made = table("By way", ("Way", "A day"), [row("direct", ["537 Wh"])])
    >>> '<td class="rig-number">537 Wh</td>' in made, '<caption>By way</caption>' in made
    (True, True)
    """
    number = Markup(' class="rig-number"')
    head = [h('<th scope="col"{}>{}</th>', number if at else "", name) for at, name in enumerate(columns)]
    return h(
        '<div class="rig-scroll" tabindex="0" role="region" aria-label="{}"><table><caption>{}</caption>'
        "<thead><tr>{}</tr></thead><tbody>{}</tbody></table></div>{}",
        title,
        title,
        head,
        list(rows),
        h('<p class="rig-quiet">{}</p>', note) if note else "",
    )
