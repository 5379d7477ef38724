"""User files -> model, with every problem and its place."""

from reportgen.intake.begin import look, place_of
from reportgen.intake.folder import Intake, exit_code, read_folder
from reportgen.intake.sources import watched
from reportgen.intake.squad import find_lifters, read_squad

__all__ = ["Intake", "exit_code", "find_lifters", "look", "place_of", "read_folder", "read_squad", "watched"]
