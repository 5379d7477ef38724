"""`write` whose pages cost nothing but time: how a run of several processes ends is seen without their work.

The processes that it starts run this module, too, and so write the same way.
"""

import signal
import time

from reportgen.cli import several
from reportgen.cli.order import Order, Outcome


def slow(order: Order) -> Outcome:
    time.sleep(0.3)
    order.out.mkdir(exist_ok=True)
    page = order.out / f"{order.slug}.html"
    page.write_text("<p>a page</html>\n", encoding="utf-8")
    return Outcome(folder=order.slug, path=page, code=0, lines=(), verdict="written", line=None)


several.write_one = slow  # type: ignore[attr-defined]

if __name__ == "__main__":
    from reportgen.cli.main import main

    signal.signal(signal.SIGINT, signal.default_int_handler)
    main()
