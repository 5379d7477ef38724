"""User files -> model, with every problem and its place."""

from reportgen.intake.folder import Intake, exit_code, read_folder
from reportgen.intake.squad import find_lifters, others, read_squad

__all__ = ["Intake", "exit_code", "find_lifters", "others", "read_folder", "read_squad"]
