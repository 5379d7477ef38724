"""Write self-contained dossiers for weightlifters and their coaches from a training log."""

__version__ = "0.2.0"
