"""All figures, as Markdown: `python -m benchmarks > figures.md`; `--quick` for a smaller run."""

import platform
import sys

from benchmarks import appending, believing, calculating, linting, planning, repaint, scale, sweep


def main() -> None:
    """Measure everything and print it."""
    quick = "--quick" in sys.argv
    print(f"Python {platform.python_version()}, {platform.machine()}, {platform.system()}.\n")
    print(linting.start_up(5 if quick else 21))
    print(calculating.start_up(5 if quick else 21))
    print(calculating.measure(200 if quick else 2000, 3 if quick else 9))
    print(believing.measure(200 if quick else 2000, 3 if quick else 9))
    print(linting.measure(100 if quick else 1000, 3 if quick else 5))
    print(scale.measure(10_000 if quick else 100_000, 1 if quick else 3))
    print(appending.measure(200 if quick else 2000))
    print(planning.proofs())
    print(sweep.measure(1 if quick else 4))
    print(planning.against_memo())
    print(planning.fallback(20 if quick else 200))
    print(planning.next_test())
    print(repaint.measure(50 if quick else 300))


if __name__ == "__main__":
    main()
