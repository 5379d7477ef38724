"""`write` and `facts` that cost nothing but time: how a run of several processes goes is seen without them.

The processes that it starts run this module, too, and so write the same way.
"""

import signal
import time

from reportgen.cli import facts, several
from reportgen.cli.order import Order, Outcome

#: Letters of a lifter's facts.
LARGE = 4_000_000


def slow(order: Order) -> Outcome:
    time.sleep(0.3)
    order.out.mkdir(exist_ok=True)
    page = order.out / f"{order.slug}.html"
    page.write_text("<p>a page</html>\n", encoding="utf-8")
    return Outcome(folder=order.slug, path=page, code=0, lines=(), verdict="written", line=None)


def large(task: facts.Asked) -> facts.Found:
    time.sleep(0.1)
    return facts.Found(json=f'"{task.folder.name} {"." * LARGE}"', lines=(), code=0)


if __name__ in ("__main__", "__mp_main__"):  # in no test that asks how large
    several.write_one = slow  # type: ignore[attr-defined]
    facts._one = large

if __name__ == "__main__":
    from reportgen.cli.main import main

    signal.signal(signal.SIGINT, signal.default_int_handler)
    main()
