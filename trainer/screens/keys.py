"""Key bindings of a screen, made from the registry of actions."""

from __future__ import annotations

from textual.binding import Binding, BindingType

from trainer.actions import ACTIONS, Place


def bindings_for(*places: Place) -> list[BindingType]:
    """Return the bindings of every action that works at one of the places."""
    return [
        Binding(key, f"{action.name}('{key}')" if action.takes_key else action.name, action.words, show=False)
        for action in ACTIONS
        if set(places) & set(action.places)
        for key in action.keys
    ]
