"""Writes SVG: elements with their attributes, every text and number made fit for it."""

from __future__ import annotations

from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from assistant.reply.visible import visible

Place = tuple[float, float]
CHARACTER = 0.62
"""Width of a letter or digit, of the size of the type; wider than those of the usual sans-serif."""


class Pen:
    """Collects the elements of a drawing, one after the other."""

    def __init__(self) -> None:
        self._parts: list[str] = []

    def add(self, kind: str, words: str | None = None, /, **attributes: object) -> None:
        """An element; ``_`` in the name of an attribute is a hyphen, one at its end is left out."""
        self._parts.append(f"<{kind}{_attributes(attributes)}")
        self._parts.append("/>\n" if words is None else f">{escape(visible(words))}</{kind}>\n")

    def begin(self, kind: str, **attributes: object) -> None:
        """An element that holds what follows."""
        self._parts.append(f"<{kind}{_attributes(attributes)}>\n")

    def end(self, kind: str) -> None:
        """Its end."""
        self._parts.append(f"</{kind}>\n")

    def text(self, words: str, x: float, y: float, **attributes: object) -> None:
        """Words at a place."""
        self.add("text", words, **{"x": x, "y": y, **attributes})

    def line(self, start: Place, end: Place, /, **attributes: object) -> None:
        """A straight line."""
        ends = {"x1": start[0], "y1": start[1], "x2": end[0], "y2": end[1]}
        self.add("line", None, **{**ends, **attributes})

    def path(self, rings: Iterable[Iterable[Place]], *, closed: bool, **attributes: object) -> None:
        """Lines through places, or what rings enclose."""
        drawn = "".join(_run(ring, closed=closed) for ring in rings)
        if drawn:
            self.add("path", None, **{"d": drawn, "fill_rule": "evenodd", **attributes})

    @property
    def drawn(self) -> str:
        """All of it so far."""
        return "".join(self._parts)


def whole_svg(drawn: str, size: Place, title: str, about: str, *, id: str) -> str:
    """A drawing that says what it shows to whoever cannot see it, and fetches nothing."""
    head = _attributes(
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "viewBox": f"0 0 {number(size[0])} {number(size[1])}",
            "role": "img",
            "aria_labelledby": f"{id}-title {id}-about",
            "font_family": "system-ui, sans-serif",
        }
    )
    return (
        f"<svg{head}>\n<title id={quoteattr(id + '-title')}>{escape(visible(title))}</title>\n"
        f"<desc id={quoteattr(id + '-about')}>{escape(visible(about))}</desc>\n{drawn}</svg>\n"
    )


def width_of(words: str, size: float) -> float:
    """How wide words are, at the most."""
    return len(words) * CHARACTER * size


def number(value: float) -> str:
    """
    A number to a hundredth of a pixel.

    >>> number(1.0), number(-0.001), number(12.345)
    ('1', '0', '12.35')
    """
    shown = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if shown == "-0" else shown


def _run(places: Iterable[Place], *, closed: bool) -> str:
    pairs = [f"{number(x)} {number(y)}" for x, y in places]
    if closed and len(pairs) > 1 and pairs[0] == pairs[-1]:
        pairs.pop()
    return f"M{'L'.join(pairs)}{'Z' if closed else ''}" if len(pairs) > 1 else ""


def _attributes(attributes: dict[str, object]) -> str:
    return "".join(
        f" {name.rstrip('_').replace('_', '-') if name != 'viewBox' else name}="
        f"{quoteattr(_shown(value))}"
        for name, value in attributes.items()
        if value is not None
    )


def _shown(value: object) -> str:
    return number(float(value)) if isinstance(value, int | float) else visible(str(value))
