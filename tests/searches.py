"""How far a test searches: a little in the usual run, all the way with `--hypothesis-profile=thorough`."""

from hypothesis import settings

THOROUGH = "thorough"


def far(usual: int, thorough: int) -> int:
    """How many of something dear to look at. Asked while tests are collected, when the profile is chosen."""
    return thorough if settings.get_current_profile_name() == THOROUGH else usual


def examples(usual: int, thorough: int) -> settings:
    """Settings of a search whose every example is dear."""
    return settings(max_examples=far(usual, thorough), deadline=None)
