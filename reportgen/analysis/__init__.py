"""One question a module: pure functions from tables to results."""
