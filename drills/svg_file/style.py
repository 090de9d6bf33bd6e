"""How an element is drawn: its attributes, the style rules that fit it, its own style, each over the last.

Rules are those of one simple selector: a name, classes, an id, or these together (CSS 2.1, chapters 5 and 6).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any, Final, NamedTuple, TypeAlias

from drills.svg_file.tree import name_of

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

Style: TypeAlias = Mapping[str, str]
KEPT: Final = ("stroke", "stroke-dasharray", "stroke-width", "display", "visibility", "color")
"""The properties that say whether and how a line is drawn."""
_INHERITED: Final = ("stroke", "stroke-dasharray", "stroke-width", "visibility", "color")
_MOST_RULES: Final = 2_000


class Rule(NamedTuple):
    """A style rule: what it fits, how heavy it is, and what it sets."""

    name: str
    ids: frozenset[str]
    classes: frozenset[str]
    style: Style

    @property
    def weight(self) -> tuple[int, int, int]:
        """The weight of its selector: ids, then classes, then names."""
        return len(self.ids), len(self.classes), int(bool(self.name))

    def fits(self, name: str, own_id: str, classes: frozenset[str]) -> bool:
        """Whether an element of this name, id and classes is meant."""
        return (not self.name or self.name == name) and self.ids <= {own_id} and self.classes <= classes


def rules_in(root: Element) -> list[Rule]:
    """Return the rules of all style elements, the lightest first, later ones after earlier ones."""
    import tinycss2

    rules: list[Rule] = []
    for element in root.iter():
        if name_of(element) == "style":
            for found in tinycss2.parse_stylesheet(element.text or "", skip_comments=True):
                if found.type == "qualified-rule" and len(rules) < _MOST_RULES:
                    rules += _rules_of(found.prelude, _declared(found.content))
    return sorted(rules, key=lambda rule: rule.weight)


def _declared(content: str | Iterable[Any]) -> dict[str, str]:
    """Return the properties that a block sets, of those that matter here."""
    import tinycss2

    return {
        found.lower_name: tinycss2.serialize(found.value).strip()
        for found in tinycss2.parse_blocks_contents(content, skip_comments=True)
        if found.type == "declaration" and found.lower_name in KEPT
    }


def _rules_of(prelude: Iterable[Any], style: Style) -> Iterator[Rule]:
    """Yield a rule for each simple selector before a block; those with spaces or signs are passed over."""
    selectors: list[list[Any]] = [[]]
    for token in prelude:
        if token == ",":
            selectors.append([])
        else:
            selectors[-1].append(token)
    for tokens in selectors:
        while tokens and tokens[-1].type == "whitespace":
            tokens.pop()
        while tokens and tokens[0].type == "whitespace":
            tokens.pop(0)
        name, ids, classes, is_class = "", set(), set(), False
        for token in tokens:
            if token == "." and not is_class:
                is_class = True
            elif token.type == "ident":
                classes.add(token.value) if is_class else None
                name, is_class = name if is_class else token.value, False
            elif token.type == "hash":
                ids.add(token.value)
            elif token != "*":
                break
        else:
            if tokens:
                yield Rule(name, frozenset(ids), frozenset(classes), style)


def style_of(element: Element, rules: Iterable[Rule], inherited: Style) -> dict[str, str]:
    """Return how an element is drawn, inside one that is drawn as inherited."""
    own = {key: value.strip() for key in KEPT if (value := element.get(key)) is not None}
    name, own_id = name_of(element), element.get("id") or ""
    classes = frozenset((element.get("class") or "").split())
    for rule in rules:
        if rule.style and rule.fits(name, own_id, classes):
            own.update(rule.style)
    if text := element.get("style"):
        own.update(_declared(text))
    style = {key: inherited[key] for key in _INHERITED if key in inherited}
    return style | {key: value for key, value in own.items() if value != "inherit"}


def is_drawn(style: Style) -> bool:
    """Whether lines of this style are to be seen at all."""
    has_stroke = style.get("stroke", "none") not in ("none", "transparent")
    return has_stroke and style.get("visibility", "visible") == "visible" and style.get("stroke-width") != "0"


def colour_of(style: Style) -> str:
    """Return the stroke's colour as #rrggbb, or as it is written where it is no plain colour."""
    from tinycss2.color3 import parse_color

    text = style.get("stroke", "")
    if text.lower() == "currentcolor":
        text = style.get("color", "black")
    colour = parse_color(text)
    if colour is None or isinstance(colour, str):
        return "a pattern of colours" if text.startswith("url") else "a colour of its own"
    return "#" + "".join(f"{round(255 * max(0.0, min(part, 1.0))):02x}" for part in colour[:3])


def dash_of(style: Style) -> str:
    """Return the dashes as numbers, empty for a line that is drawn through."""
    text = style.get("stroke-dasharray", "none").replace(",", " ").split()
    return (
        ""
        if not text or text == ["none"] or all(part.strip("0.px") == "" for part in text)
        else " ".join(text)
    )
