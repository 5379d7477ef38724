"""Arguments, the clock and the terminal: one module a command."""
