"""How far a test searches: a little in the usual run, further in the gate where that is cheap, or all.

`--hypothesis-profile=gate` and `--hypothesis-profile=thorough` say so; tests/conftest.py names them.
"""

from hypothesis import settings

THOROUGH = "thorough"
GATE = "gate"


def far(usual: int, thorough: int, *, gate: int | None = None) -> int:
    """How many of something dear to look at. Asked while tests are collected, when the profile is chosen."""
    profile = settings.get_current_profile_name()
    if profile == GATE and gate is not None:
        return gate
    return thorough if profile == THOROUGH else usual


def examples(usual: int, thorough: int, *, gate: int | None = None) -> settings:
    """Settings of a search whose every example is dear."""
    return settings(max_examples=far(usual, thorough, gate=gate), deadline=None)
