"""The bad and the good example on the page of every rule are what the page says."""

from functools import cache

import pytest

from engine.lint.pages import WEIGHING
from engine.lint.registry import RULES
from engine.lint.runner import run
from engine.loading import folders
from engine.loading.leaf import File
from engine.loading.library import gather
from tests.engine.lint.examples import example, files

SLUGS = sorted((*(rule.slug for rule in RULES), *WEIGHING))
READ = {rule.slug for rule in RULES} | set(WEIGHING)


@cache
def shipped() -> tuple[File, ...]:
    """What the examples may refer to."""
    return tuple(file._replace(trusted=True) for file in folders.shipped())


@cache
def found(slug: str, part: str) -> frozenset[str]:
    """The slugs that are found in an example; those of the loader as sentences."""
    own = files(example(slug, part))
    others = [file for file in shipped() if not file.path.startswith("rehearsals/") and _lets(own, file)]
    findings = run(gather([*own, *others]), frozenset(file.shown for file in own))
    return frozenset(each.rule if each.rule in READ else str(each) for each in findings)


def _lets(own: list[File], file: File) -> bool:
    """Trees are there where an example rehearses one, and else they would only have complaints in common."""
    return not file.path.startswith("complaints/") or any(b'"rehearsal"' in each.content for each in own)


@pytest.mark.parametrize("slug", SLUGS)
def test_the_bad_example_is_found_fault_with(slug: str) -> None:
    """By the very rule that the page is about, and everything that it shows can be read."""
    assert slug in found(slug, "Bad")
    assert found(slug, "Bad") <= READ


@pytest.mark.parametrize("slug", SLUGS)
def test_the_good_example_is_not(slug: str) -> None:
    """The rule has nothing to say of it, and everything that it shows can be read."""
    assert slug not in found(slug, "Good")
    assert found(slug, "Good") <= READ
