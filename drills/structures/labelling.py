"""Labels for a sheet with several structures: by rank where that folds, else by the layer search."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from drills.layers.conditions import conditions_of
from drills.layers.folding import fold
from drills.layers.verdict import find_order, label_pairs, layers
from drills.pattern.crease_pattern import CreasePattern, Role

LABEL_TRIES = 60

_SLANTED: tuple[Role, ...] = ("outline", "inside")


@lru_cache(maxsize=256)
def labelled(pattern: CreasePattern) -> CreasePattern:
    """Return the pattern with labels for which it has a layer order; its own labels are a proposal.

    Kept are first all of them, then those of the slanted structures, then none. ValueError where no
    order is found within LABEL_TRIES each.
    """
    folded = fold(pattern)
    conditions = conditions_of(folded)
    for proposal in _proposals(pattern):
        if find_order(conditions, label_pairs(folded, proposal.labels()), LABEL_TRIES).folds:
            return _completed(proposal)
    raise ValueError("No labels were found with which this sheet folds flat; choose other hinges.")


def _completed(proposal: CreasePattern) -> CreasePattern:
    """Return a pattern known to fold with labels chosen for the creases that have none."""
    if "U" not in proposal.labels():
        return proposal
    return proposal.with_labels(layers(proposal, LABEL_TRIES).labels)


def _proposals(pattern: CreasePattern) -> Iterator[CreasePattern]:
    slanted_only = pattern.with_labels(
        edge.label if edge.label == "B" or edge.role in _SLANTED else "U" for edge in pattern.edges
    )
    yield from dict.fromkeys((pattern, slanted_only, pattern.unlabelled()))
