"""One question a module: pure functions from tables to results.

In all of them `sets` is what `frames.prepare` gives up to the review day `as_of`, `days` what `frames.by_day`
makes of it, `scored` the rows that can make a best (`bests.scoring`, those from before the log included),
`lifts` the goal's lifts from the floor, `records` what was read, `trade` the trade's tables and rules.
"""
